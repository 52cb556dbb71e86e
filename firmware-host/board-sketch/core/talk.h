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

// Flags of a status.
constexpr uint16_t FLAG_TIME = 1;
constexpr uint16_t FLAG_LOW = 2;
constexpr uint16_t FLAG_SUSPECT = 4;
constexpr uint16_t FLAG_MISSED = 8;
constexpr uint16_t FLAG_NOT_SET_UP = 16;
constexpr uint16_t FLAG_NO_TABLE = 32;
constexpr uint16_t FLAG_TESTS = 64;
constexpr uint16_t FLAG_CLOCK = 128;
constexpr uint16_t FLAG_SETTLING = 256;
constexpr uint16_t FLAG_HAND_TEST = 512;

struct AS_ON_THE_WIRE Status {
  uint16_t epoch;
  Owner owner;
  uint32_t uptime;
  uint8_t seen;
  uint8_t fitted;
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

// Of a question: the bytes of its body, of which only a table may have more; and the type of its answer.
struct Shape {
  uint8_t length;
  Type answer;
};
// From Hello on.
constexpr Shape SHAPES[] = {
    {0, Type::HelloAnswer}, {0, Type::StatusAnswer},           {2, Type::AckAnswer},   {7, Type::StatusAnswer},
    {5, Type::AckAnswer},   {6, Type::AckAnswer},              {2 + TABLE_HEAD, Type::AckAnswer},
    {0, Type::TableAnswer}, {2, Type::LogAnswer},              {2, Type::AckAnswer},
};
constexpr uint8_t TYPES = sizeof(SHAPES) / sizeof(*SHAPES);

template <class Store>
class Talk {
 public:
  // `health` is told with every status; `readFlash` gives a byte of the setup as it lies in the flash.
  using ReadFlash = uint8_t (*)(uint8_t offset);
  constexpr Talk(Keeper<Store>& keeper, Health& health, ReadFlash readFlash)
      : keeper_(keeper), health_(health), readFlash_(readFlash) {}

  // A whole frame. The answer, without checksum, goes to `answer` (FRAME_BYTES_MAX), which may be where the question lies; its
  // length, or 0 for none.
  uint8_t answered(const uint8_t* frame, uint8_t count, uint8_t* answer) const {
    const uint8_t length = static_cast<uint8_t>(checkedFrame(frame, count) - 2);
    const Type type = static_cast<Type>(frame[0]);
    const uint8_t place = static_cast<uint8_t>(frame[0] - static_cast<uint8_t>(Type::Hello));
    // A frame that is not good has -2 bytes of body, more than any may have.
    if (place >= TYPES || length > FRAME_BYTES_MAX ||
        (type == Type::TablePut ? length < SHAPES[place].length : length != SHAPES[place].length)) {
      ++health_.droppedFrames;
      return 0;
    }
    answer[1] = frame[1];
    const uint8_t* const end = told(type, frame + 2, length, answer + 2);
    answer[0] = static_cast<uint8_t>(SHAPES[place].answer);
    return static_cast<uint8_t>(end - answer);
  }

 private:
  // Carries out what was asked and writes the body of the answer to `to`, when all has been read. Its end.
  uint8_t* told(Type type, const uint8_t* body, uint8_t length, uint8_t* to) const {
    Answer given;
    const uint16_t epoch = twoBytes(body);
    switch (type) {
      case Type::Hello:
        return hello(to);
      case Type::Heartbeat:
        keeper_.heartbeat(epoch, body[2], twoBytes(body + 3), body[5], body[6]);
        return status(to, keeper_);
      case Type::Status:
        return status(to, keeper_);
      case Type::TableGet:
        return table(to);
      case Type::LogGet:
        return log(to, epoch);
      case Type::Claim:
        given = keeper_.claim(epoch);
        break;
      case Type::LetGo:
        given = keeper_.letGo(epoch);
        break;
      case Type::Pump:
        given = keeper_.pump(epoch, body[2], twoBytes(body + 3));
        break;
      case Type::Hold:
        given = keeper_.hold(epoch, twoBytes(body + 2), twoBytes(body + 4));
        break;
      default:
        given = keeper_.putTable(epoch, *reinterpret_cast<const Table*>(body + 2), static_cast<uint8_t>(length - 2));
        break;
    }
    *to++ = static_cast<uint8_t>(type);
    *reinterpret_cast<Answer*>(to) = given;
    return to + sizeof(given);
  }

  uint8_t* hello(uint8_t* to) const {
    *to++ = PROTOCOL_MAJOR;
    *to++ = PROTOCOL_MINOR;
    *to++ = FIRMWARE_MAJOR;
    *to++ = FIRMWARE_MINOR;
    for (uint8_t at = 0; at < SETUP_BYTES; ++at) *to++ = readFlash_(at);
    return to;
  }

  CALLED uint8_t* status(uint8_t* to, const Keeper<Store>& keeper) const {
    Status& status = *reinterpret_cast<Status*>(to);
    tellMemory(status, keeper.memory());
    uint16_t flags = status.flags;
    if (keeper.settling()) flags |= FLAG_SETTLING;
    if (health_.failedTests != 0) flags |= FLAG_TESTS;
    if ((health_.failedTests & TEST_CLOCK) != 0) flags |= FLAG_CLOCK;
    const Kept& kept = keeper.kept();
    status.seen = 0;
    status.fitted = 0;
    if (keeper.setup() == nullptr) {
      flags |= FLAG_NOT_SET_UP;
    } else {
      status.seen = seenBits(keeper);
      status.fitted = static_cast<uint8_t>(fittedSights(*keeper.setup()) << 1);
      if (kept.slot == FLASH_SLOT) flags |= FLAG_NO_TABLE;
      if (keeper.handTestAsked()) flags |= FLAG_HAND_TEST;
    }
    status.flags = flags;
    status.owner = keeper.owner();
    status.lease = keeper.lease();
    status.untilFlood = keeper.untilFlood();
    status.slot = kept.slot;
    status.seq = kept.seq;
    status.tableCrc = crcOf(bytesOf(keeper.table()), kept.count);
    status.health = health_;
    return to + sizeof(Status);
  }

  CALLED static void tellMemory(Status& status, const Memory& memory) {
    uint16_t flags = 0;
    if (memory.minute != MINUTE_UNKNOWN) flags |= FLAG_TIME;
    if (memory.tank == Tank::Low) flags |= FLAG_LOW;
    if (memory.tank == Tank::Suspect) flags |= FLAG_SUSPECT;
    if (memory.missed != 0) flags |= FLAG_MISSED;
    status.flags = flags;
    status.epoch = memory.epoch;
    status.uptime = memory.uptime;
    status.pumpLeft = memory.runLeft;
    status.pumpFor = memory.run != RunKind::None ? memory.onFor : memory.age[OFF];
    status.floodAgo = memory.age[FLOOD];
    status.floodRan = memory.floodRan;
    status.holdLeft = memory.holdLeft;
    status.minute = memory.minute;
    status.logNext = memory.logNext;
    status.cause = memory.cause;
    status.resets = memory.resets;
    status.presses = memory.presses;
  }

  // The pump as it was asked, and above it the sights; of the mains the loss is told.
  uint8_t seenBits(const Keeper<Store>& keeper) const {
    uint8_t bits = keeper.mainsLost() ? 1 : 0;
    for (uint8_t sight = MAINS; sight-- > 0;) {
      bits = static_cast<uint8_t>(bits << 1);
      if (keeper.seen().seen[sight] == Seen::Yes) ++bits;
    }
    return static_cast<uint8_t>(bits << 1 | (keeper.pumpOn() ? 1 : 0));
  }

  uint8_t* table(uint8_t* to) const {
    const Kept& kept = keeper_.kept();
    *to++ = kept.slot;
    to = put(to, kept.seq);
    return copied(to, bytesOf(keeper_.table()), kept.count);
  }

  // Entries from `from` on, or from the oldest that is left.
  uint8_t* log(uint8_t* to, uint16_t from) const {
    const Memory& memory = keeper_.memory();
    const uint16_t oldest = static_cast<uint16_t>(memory.logNext - memory.logKept);
    uint16_t number = static_cast<uint16_t>(from - oldest) > memory.logKept ? oldest : from;
    to = put(to, number);
    for (uint8_t sent = 0; sent < LOG_ENTRIES_A_FRAME && number != memory.logNext; ++sent, ++number)
      to = copied(to, bytesOf(keeper_.log().at(number)), sizeof(Entry));
    return to;
  }

  Keeper<Store>& keeper_;
  Health& health_;
  ReadFlash readFlash_;
};

}  // namespace keeper
