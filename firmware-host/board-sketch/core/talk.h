// Answers keeper messages. Types, lengths and layouts: docs/board-protocol.md.
#pragma once
#include "frame.h"
#include "keeper.h"

namespace keeper {

enum class Type : uint8_t {
  Hello = 1,
  Status = 2,
  Claim = 3,
  Heartbeat = 4,
  Pump = 5,
  Hold = 6,
  TablePut = 7,
  TableGet = 8,
  LogGet = 9,
  LetGo = 10,
  AckAnswer = 0x40,
  HelloAnswer = 0x41,
  StatusAnswer = 0x42,
  TableAnswer = 0x48,
  LogAnswer = 0x49,
};

constexpr uint8_t PROTOCOL_MAJOR = 1;
constexpr uint8_t PROTOCOL_MINOR = 0;
constexpr uint8_t FIRMWARE_MAJOR = 1;
constexpr uint8_t FIRMWARE_MINOR = 0;
constexpr uint8_t LOG_ENTRIES_A_FRAME = 8;

// What the board knows of itself beside its keeper, as a status tells it.
struct AS_ON_THE_WIRE Health {
  uint8_t fuses[4];
  uint16_t droppedFrames;
  uint16_t lostBytes;
  uint16_t stackRoom;
  uint8_t failedTests;
};

constexpr uint8_t TEST_FLASH = 1;
constexpr uint8_t TEST_EEPROM = 2;
constexpr uint8_t TEST_RAM = 4;
constexpr uint8_t TEST_CLOCK = 8;
constexpr uint8_t TEST_SETUP = 16;

struct AS_ON_THE_WIRE Status {
  uint16_t epoch;
  Owner owner;
  uint32_t uptime;
  uint16_t seen;
  uint16_t flags;
  Seconds pumpLeft;
  Seconds pumpFor;
  Seconds floodAgo;
  Seconds floodRan;
  Seconds holdLeft;
  uint8_t lease;
  uint16_t minute;
  Seconds untilFlood;
  uint8_t slot;
  uint16_t seq;
  uint16_t tableCrc;
  uint16_t logNext;
  uint8_t cause;
  uint16_t resets;
  Health health;
  uint16_t presses;
};
static_assert(sizeof(Status) == 49, "as on the wire");

// Sixteen flags, the lowest first.
class Bits {
 public:
  CALLED void next(bool so) {
    if (so) bits_ = static_cast<uint16_t>(bits_ | one_);
    one_ = static_cast<uint16_t>(one_ << 1);
  }
  uint16_t all() const { return bits_; }

 private:
  uint16_t bits_ = 0;
  uint16_t one_ = 1;
};

template <class Store>
class Talk {
 public:
  // `health` is told with every status; `readFlash` gives a byte of the setup as it lies in the flash.
  using ReadFlash = uint8_t (*)(uint8_t offset);
  Talk(Keeper<Store>& keeper, Health& health, ReadFlash readFlash)
      : keeper_(keeper), health_(health), readFlash_(readFlash) {}

  // A whole frame. The answer, without checksum, goes to `answer` (FRAME_BYTES_MAX); its length, or 0 for none.
  uint8_t answered(const uint8_t* frame, uint8_t count, uint8_t* answer) {
    const uint8_t bare = checkedFrame(frame, count);
    const Type type = static_cast<Type>(frame[0]);
    const uint8_t length = static_cast<uint8_t>(bare - 2);
    const uint8_t due = lengthOf(type);
    if (bare == 0 || (type == Type::TablePut ? length < due : length != due)) {
      ++health_.droppedFrames;
      return 0;
    }
    const uint8_t* body = frame + 2;
    uint8_t* const to = answer + 2;
    answer[1] = frame[1];
    const uint8_t told = asked(type, body, to);
    if (told > 0) {
      answer[0] = static_cast<uint8_t>(answerTo(type));
      return static_cast<uint8_t>(2 + told);
    }
    const Answer given = ordered(type, body, length);
    answer[0] = static_cast<uint8_t>(Type::AckAnswer);
    to[0] = static_cast<uint8_t>(type);
    to[1] = static_cast<uint8_t>(given.result);
    copied(to + 2, bytesOf(given.value), 2);
    return 6;
  }

 private:
  static constexpr uint8_t NO_LENGTH = 0xFF;

  // Of the body, at least; only a table may be longer.
  static uint8_t lengthOf(Type type) {
    switch (type) {
      case Type::Hello:
      case Type::Status:
      case Type::TableGet:
        return 0;
      case Type::Claim:
      case Type::LetGo:
      case Type::LogGet:
        return 2;
      case Type::Pump:
        return 5;
      case Type::Hold:
        return 6;
      case Type::Heartbeat:
        return 7;
      case Type::TablePut:
        return 2 + TABLE_HEAD;
      default:
        return NO_LENGTH;
    }
  }

  static Type answerTo(Type type) {
    switch (type) {
      case Type::Hello:
        return Type::HelloAnswer;
      case Type::TableGet:
        return Type::TableAnswer;
      case Type::LogGet:
        return Type::LogAnswer;
      default:
        return Type::StatusAnswer;
    }
  }

  // Questions: the bytes of their answer, 0 for anything else.
  uint8_t asked(Type type, const uint8_t* body, uint8_t* to) {
    uint8_t* end = to;
    switch (type) {
      case Type::Hello:
        end = hello(to);
        break;
      case Type::Heartbeat:
        keeper_.heartbeat(twoBytes(body), body[2], twoBytes(body + 3), body[5], body[6]);
        end = status(to);
        break;
      case Type::Status:
        end = status(to);
        break;
      case Type::TableGet:
        end = table(to);
        break;
      case Type::LogGet:
        end = log(to, twoBytes(body));
        break;
      default:
        break;
    }
    return static_cast<uint8_t>(end - to);
  }

  Answer ordered(Type type, const uint8_t* body, uint8_t length) {
    const uint16_t epoch = twoBytes(body);
    body += 2;
    switch (type) {
      case Type::Claim:
        return keeper_.claim(epoch);
      case Type::LetGo:
        return keeper_.letGo(epoch);
      case Type::Pump:
        return keeper_.pump(epoch, body[0], twoBytes(body + 1));
      case Type::Hold:
        return keeper_.hold(epoch, twoBytes(body), twoBytes(body + 2));
      default:
        return keeper_.putTable(epoch, *reinterpret_cast<const Table*>(body), static_cast<uint8_t>(length - 2));
    }
  }

  uint8_t* hello(uint8_t* to) const {
    *to++ = PROTOCOL_MAJOR;
    *to++ = PROTOCOL_MINOR;
    *to++ = FIRMWARE_MAJOR;
    *to++ = FIRMWARE_MINOR;
    for (uint8_t at = 0; at < SETUP_BYTES; ++at) *to++ = readFlash_(at);
    return to;
  }

  uint8_t* status(uint8_t* to) const {
    Status& status = *reinterpret_cast<Status*>(to);
    const Memory& memory = keeper_.memory();
    const Kept& kept = keeper_.kept();
    status.epoch = memory.epoch;
    status.owner = keeper_.owner();
    status.uptime = memory.uptime;
    status.seen = seenBits();
    status.flags = flagBits();
    status.pumpLeft = memory.runLeft;
    status.pumpFor = keeper_.pumpOn() ? memory.onFor : memory.age[OFF];
    status.floodAgo = memory.age[FLOOD];
    status.floodRan = memory.floodRan;
    status.holdLeft = memory.holdLeft;
    status.lease = keeper_.lease();
    status.minute = memory.minute;
    status.untilFlood = keeper_.untilFlood();
    status.slot = kept.slot;
    status.seq = kept.seq;
    status.tableCrc = crcOf(bytesOf(keeper_.table()), kept.count);
    status.logNext = memory.logNext;
    status.cause = memory.cause;
    status.resets = memory.resets;
    status.health = health_;
    status.presses = memory.presses;
    return to + sizeof(Status);
  }

  uint16_t seenBits() const {
    const Setup* setup = keeper_.setup();
    if (setup == nullptr) return 0;
    Bits bits;
    bits.next(keeper_.pumpOn());
    // Of the mains the loss is told.
    for (uint8_t sight = 0; sight < SIGHTS; ++sight)
      bits.next(keeper_.seen().seen[sight] == (sight == MAINS ? Seen::No : Seen::Yes));
    bits.next(false);
    for (uint8_t sight = 0; sight < SIGHTS; ++sight) bits.next(contactOf(*setup, sight).pin != NO_PIN);
    return bits.all();
  }

  uint16_t flagBits() const {
    const Memory& memory = keeper_.memory();
    const bool setUp = keeper_.setup() != nullptr;
    Bits bits;
    bits.next(memory.minute != MINUTE_UNKNOWN);
    bits.next(memory.tank == Tank::Low);
    bits.next(memory.tank == Tank::Suspect);
    bits.next(memory.missed != 0);
    bits.next(!setUp);
    bits.next(setUp && keeper_.kept().slot == FLASH_SLOT);
    bits.next(health_.failedTests != 0);
    bits.next((health_.failedTests & TEST_CLOCK) != 0);
    bits.next(keeper_.settling());
    bits.next(setUp && keeper_.handTestAsked());
    return bits.all();
  }

  uint8_t* table(uint8_t* to) const {
    const Kept& kept = keeper_.kept();
    *to++ = kept.slot;
    to = copied(to, bytesOf(kept.seq), 2);
    return copied(to, bytesOf(keeper_.table()), kept.count);
  }

  // Entries from `from` on, or from the oldest that is left.
  uint8_t* log(uint8_t* to, uint16_t from) const {
    const Memory& memory = keeper_.memory();
    const uint16_t oldest = static_cast<uint16_t>(memory.logNext - memory.logKept);
    uint16_t number = static_cast<uint16_t>(from - oldest) > memory.logKept ? oldest : from;
    to = copied(to, bytesOf(number), 2);
    for (uint8_t sent = 0; sent < LOG_ENTRIES_A_FRAME && number != memory.logNext; ++sent, ++number)
      to = copied(to, bytesOf(keeper_.log().at(number)), sizeof(Entry));
    return to;
  }

  Keeper<Store>& keeper_;
  Health& health_;
  ReadFlash readFlash_;
};

}  // namespace keeper
