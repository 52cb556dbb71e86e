// The table in two slots of a store that keeps bytes without power. Power may fail at any byte: then the old table holds, or
// the new one. Layout: docs/board-protocol.md, "EEPROM".
#pragma once
#include "crc16.h"
#include "table.h"

namespace keeper {

constexpr uint8_t SLOT_BYTES = 96;
constexpr uint8_t SLOT_MAGIC = 0x52;
constexpr uint8_t SLOT_EMPTY = 0xFF;

struct SlotHead {
  uint8_t magic;
  uint8_t seqLow;
  uint8_t seqHigh;
  uint8_t count;
  uint16_t seq() const { return static_cast<uint16_t>(seqLow | (seqHigh << 8)); }
};

struct Kept {
  // 0, 1; 2 when no slot is valid.
  uint8_t slot;
  uint8_t count;
  uint16_t seq;
};
constexpr uint8_t FLASH_SLOT = 2;

// Store: uint8_t read(uint16_t), void write(uint16_t, uint8_t).
template <class Store>
class Slots {
 public:
  explicit Slots(Store& store) : store_(store) {}

  // The slot in force, its table copied to `table`; FLASH_SLOT, and `table` spoilt, when there is none.
  Kept found(Seconds longestOn, Table& table) {
    Kept best = {FLASH_SLOT, 0, 0};
    for (uint8_t slot = 0; slot < 2; ++slot) {
      const SlotHead head = valid(slot, longestOn, table);
      if (head.count == 0) continue;
      const bool newer = static_cast<int16_t>(static_cast<uint16_t>(head.seq() - best.seq)) > 0;
      if (best.slot == FLASH_SLOT || newer) best = {slot, head.count, head.seq()};
    }
    if (best.slot == 0) valid(0, longestOn, table);
    return best;
  }

  // Whether a slot holds something that is neither empty nor a table; `table` is spoilt.
  bool spoilt(Seconds longestOn, Table& table) {
    bool any = false;
    for (uint8_t slot = 0; slot < 2; ++slot)
      if (store_.read(base(slot)) != SLOT_EMPTY && valid(slot, longestOn, table).count == 0) any = true;
    return any;
  }

  // Whether the slot in force holds just these bytes.
  bool holds(const Kept& kept, const uint8_t* bytes, uint8_t count) {
    return kept.slot != FLASH_SLOT && kept.count == count && whole(kept.slot, count, bytes);
  }

  // False when what was written does not read back; what was in force before is then untouched.
  bool put(Kept& kept, const uint8_t* bytes, uint8_t count) {
    const uint8_t slot = kept.slot == 0 ? 1 : 0;
    const uint16_t seq = static_cast<uint16_t>(kept.seq + 1);
    const SlotHead head = {SLOT_EMPTY, static_cast<uint8_t>(seq), static_cast<uint8_t>(seq >> 8), count};
    uint16_t at = base(slot);
    uint16_t crc = CRC_START;
    set(at++, SLOT_EMPTY);
    const auto counted = [this, &at, &crc](const uint8_t* from, uint8_t many) {
      while (many-- > 0) {
        crc = crcWith(crc, *from);
        set(at++, *from++);
      }
    };
    counted(&head.seqLow, sizeof(head) - 1);
    counted(bytes, count);
    set(at++, static_cast<uint8_t>(crc >> 8));
    set(at, static_cast<uint8_t>(crc));
    if (!whole(slot, count, bytes)) return false;
    set(base(slot), SLOT_MAGIC);
    if (store_.read(base(slot)) != SLOT_MAGIC) return false;
    kept = {slot, count, seq};
    return true;
  }

 private:
  static uint16_t base(uint8_t slot) { return slot == 0 ? uint16_t{0} : uint16_t{SLOT_BYTES}; }
  // Cells wear: what is there already is not written again.
  CALLED void set(uint16_t at, uint8_t value) {
    if (store_.read(at) != value) store_.write(at, value);
  }
  // Whether checksum and, if given, bytes are right.
  CALLED bool whole(uint8_t slot, uint8_t count, const uint8_t* bytes) {
    uint16_t at = static_cast<uint16_t>(base(slot) + 1);
    uint16_t crc = CRC_START;
    for (uint8_t left = static_cast<uint8_t>(count + sizeof(SlotHead) - 1); left > 0; --left) {
      const uint8_t byte = store_.read(at++);
      if (bytes != nullptr && left <= count && byte != *bytes++) return false;
      crc = crcWith(crc, byte);
    }
    // The checksum lies high byte first, so that its own checksum is nought.
    crc = crcWith(crc, store_.read(at++));
    return crcWith(crc, store_.read(at)) == 0;
  }
  // The head of a slot and its table; a count of nought when it is not valid.
  CALLED SlotHead valid(uint8_t slot, Seconds longestOn, Table& table) {
    uint16_t at = base(slot);
    SlotHead head;
    uint8_t* to = reinterpret_cast<uint8_t*>(&head);
    for (uint8_t i = 0; i < sizeof(head); ++i) *to++ = store_.read(at++);
    const bool hasLength = head.magic == SLOT_MAGIC && head.count >= TABLE_HEAD && head.count <= TABLE_BYTES_MAX;
    if (!hasLength || !whole(slot, head.count, nullptr)) return {0, 0, 0, 0};
    to = reinterpret_cast<uint8_t*>(&table);
    for (uint8_t i = 0; i < head.count; ++i) *to++ = store_.read(at++);
    if (!isGood(table, head.count, longestOn)) head.count = 0;
    return head;
  }

  Store& store_;
};

}  // namespace keeper
