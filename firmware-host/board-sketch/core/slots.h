// The table in two slots of a store that keeps bytes without power. Power may fail at any byte: then the old table holds, or
// the new one. Layout: docs/board-protocol.md, "EEPROM".
#pragma once
#include "crc16.h"
#include "table.h"

namespace keeper {

constexpr uint8_t SLOT_BYTES = 96;
constexpr uint8_t SLOT_MAGIC = 0x52;
constexpr uint8_t SLOT_EMPTY = 0xFF;

struct AS_ON_THE_WIRE SlotHead {
  uint8_t magic;
  uint16_t seq;
  uint8_t count;
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
      const Kept one = valid(slot, longestOn, table);
      if (one.count == 0) {
        if (store_.read(base(slot)) != SLOT_EMPTY) spoilt_ = true;
        continue;
      }
      const bool newer = static_cast<int16_t>(static_cast<uint16_t>(one.seq - best.seq)) > 0;
      if (best.slot == FLASH_SLOT || newer) best = one;
    }
    if (best.slot == 0) valid(0, longestOn, table);
    return best;
  }

  // Whether a slot was found to hold something that is neither empty nor a table.
  bool spoilt() const { return spoilt_; }

  // Whether the slot in force holds just these bytes.
  bool holds(const Kept& kept, const uint8_t* bytes, uint8_t count) {
    return kept.slot != FLASH_SLOT && kept.count == count && whole(kept.slot, count, bytes);
  }

  // False when what was written does not read back; what was in force before is then untouched.
  bool put(Kept& kept, const uint8_t* bytes, uint8_t count) {
    const Kept next = {static_cast<uint8_t>(kept.slot == 0 ? 1 : 0), count, static_cast<uint16_t>(kept.seq + 1)};
    const uint8_t magicAt = base(next.slot);
    set(magicAt, SLOT_EMPTY);
    Place place = {static_cast<uint8_t>(magicAt + 1), CRC_START};
    append(place, static_cast<uint8_t>(next.seq));
    append(place, static_cast<uint8_t>(next.seq >> 8));
    append(place, count);
    for (uint8_t at = 0; at < count; ++at) append(place, bytes[at]);
    const uint16_t crc = place.crc;
    append(place, static_cast<uint8_t>(crc >> 8));
    append(place, static_cast<uint8_t>(crc));
    if (!whole(next.slot, count, bytes)) return false;
    set(magicAt, SLOT_MAGIC);
    if (store_.read(magicAt) != SLOT_MAGIC) return false;
    kept = next;
    return true;
  }

 private:
  // Where the next byte goes, and the checksum of those before it.
  struct Place {
    uint8_t at;
    uint16_t crc;
  };
  static uint8_t base(uint8_t slot) { return slot == 0 ? uint8_t{0} : SLOT_BYTES; }
  CALLED void append(Place& place, uint8_t byte) {
    place.crc = crcWith(place.crc, byte);
    set(place.at++, byte);
  }
  // Cells wear: what is there already is not written again.
  CALLED void set(uint8_t at, uint8_t value) {
    if (store_.read(at) != value) store_.write(at, value);
  }
  // Whether checksum and, if given, bytes are right.
  CALLED bool whole(uint8_t slot, uint8_t count, const uint8_t* bytes) {
    uint8_t at = static_cast<uint8_t>(base(slot) + 1);
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
  void read(uint8_t at, uint8_t* to, uint8_t count) {
    while (count-- > 0) *to++ = store_.read(at++);
  }
  // A slot and its table; a count of nought when it is not valid.
  CALLED Kept valid(uint8_t slot, Seconds longestOn, Table& table) {
    SlotHead head;
    read(base(slot), reinterpret_cast<uint8_t*>(&head), sizeof(head));
    Kept kept = {slot, 0, head.seq};
    if (head.magic != SLOT_MAGIC || head.count > TABLE_BYTES_MAX || !whole(slot, head.count, nullptr)) return kept;
    read(static_cast<uint8_t>(base(slot) + sizeof(head)), reinterpret_cast<uint8_t*>(&table), head.count);
    if (isGood(table, head.count, longestOn)) kept.count = head.count;
    return kept;
  }

  bool spoilt_ = false;
  Store& store_;
};

}  // namespace keeper
