// Bytes from the line, to orders: docs/board-protocol.md, "Frames"; github firmata/protocol, protocol.md 2.7, for the rest.
#include <string>

#include "bench.h"
#include "facts.h"

using namespace keeper;

static const Setup SETUP = bareSetup();
static uint8_t flashByte(uint8_t offset) { return bytesOf(SETUP)[offset]; }

// The board's receiver, with a witness of its own to what was in each frame.
struct Receiver {
  Bench bench;
  Health health;
  Talk<CutStore> talk;
  std::vector<uint8_t> sent;
  // Of the frames that were acted on: whether the witness found the checksum right.
  unsigned answered = 0;
  unsigned unproven = 0;
  unsigned overlong = 0;
  unsigned messages = 0;
  FirmataParser<Receiver> parser;

  Receiver() : bench(SETUP, plainTable()), health(), talk(bench.keeper, health, flashByte), parser(*this) {}
  void message(uint8_t, uint8_t, uint8_t, uint8_t) { ++messages; }
  void spoilt() { ++health.droppedFrames; }
  void write(uint8_t byte) { sent.push_back(byte); }
  void sysex(uint8_t id, const uint8_t* bytes, uint8_t count) {
    if (count > 84) ++overlong;
    if (id != 0x0A) return;
    uint8_t answer[FRAME_BYTES_MAX + 8];
    std::memset(answer, 0xEE, sizeof(answer));
    const uint8_t length = talk.answered(bytes, count, answer);
    for (unsigned at = FRAME_BYTES_MAX; at < sizeof(answer); ++at)
      if (answer[at] != 0xEE) ++overlong;
    if (length == 0) return;
    ++answered;
    unsigned crc = 0xFFFF;
    for (int at = 0; at < count - 2; ++at)
      for (int bit = 7; bit >= 0; --bit) {
        const bool top = ((crc >> 15) & 1u) != ((bytes[at] >> bit) & 1u);
        crc = (crc << 1) & 0xFFFFu;
        if (top) crc ^= 0x1021u;
      }
    if (count < 4 || bytes[count - 2] != crc >> 8 || bytes[count - 1] != (crc & 0xFFu)) ++unproven;
    sendFrame(*this, answer, length);
  }
  void take(const std::vector<uint8_t>& bytes) {
    for (const uint8_t byte : bytes) parser.take(byte);
  }
};

static std::vector<uint8_t> frame(uint8_t type, uint8_t seq, const std::vector<uint8_t>& body) {
  struct Sink {
    std::vector<uint8_t> bytes;
    void write(uint8_t byte) { bytes.push_back(byte); }
  } sink;
  std::vector<uint8_t> bare = {type, seq};
  bare.insert(bare.end(), body.begin(), body.end());
  sendFrame(sink, bare.data(), static_cast<uint8_t>(bare.size()));
  return sink.bytes;
}
static uint8_t low(uint16_t value) { return static_cast<uint8_t>(value); }
static uint8_t high(uint16_t value) { return static_cast<uint8_t>(value >> 8); }

// One of each kind, good for this board as it is.
static std::vector<std::vector<uint8_t>> everyOrder(uint16_t epoch, uint8_t seq) {
  const uint8_t l = low(epoch), h = high(epoch);
  return {frame(1, seq, {}),
          frame(2, seq, {}),
          frame(3, seq, {l, h}),
          frame(4, seq, {l, h, 10, 0x2C, 1, 5, 3}),
          frame(5, seq, {l, h, 1, 60, 0}),
          frame(5, seq, {l, h, 0, 0, 0}),
          frame(6, seq, {l, h, 60, 0, 0, 0}),
          frame(7, seq, {l, h, 1, 1, 0x20, 0x1C, 0xE0, 1, 0, 0, 0x60, 9, 0x60, 9, 0x58, 2}),
          frame(8, seq, {}),
          frame(9, seq, {0, 0}),
          frame(10, seq, {l, h})};
}

static std::string answerOf(Receiver& receiver, const std::vector<uint8_t>& bytes) {
  receiver.sent.clear();
  receiver.take(bytes);
  std::string joined;
  for (size_t at = 2; at + 2 < receiver.sent.size(); at += 2)
    joined.push_back(static_cast<char>(receiver.sent[at] | (receiver.sent[at + 1] << 7)));
  return joined;
}

static void good() {
  FACT("each of the 10 questions is answered with its own seq and the right type and length, for 256 seqs") {
    const struct {
      uint8_t type;
      size_t length;
    } due[] = {{0x41, 80}, {0x42, 53}, {0x40, 8}, {0x42, 53}, {0x40, 8}, {0x40, 8},
               {0x40, 8},  {0x40, 8},  {0x48, 21}, {0x49, 14}, {0x40, 8}};
    for (unsigned seq = 0; seq < 256; ++seq) {
      Receiver receiver;
      const auto orders = everyOrder(receiver.bench.keeper.memory().epoch, static_cast<uint8_t>(seq));
      for (size_t at = 0; at < orders.size(); ++at) {
        const std::string answer = answerOf(receiver, orders[at]);
        CHECK(answer.size() > 4, "order %zu: no answer", at);
        if (answer.size() <= 4) break;
        CHECK(static_cast<uint8_t>(answer[0]) == due[at].type && static_cast<uint8_t>(answer[1]) == seq, "order %zu: type %u", at,
              static_cast<unsigned>(static_cast<uint8_t>(answer[0])));
        // The log has grown by the claim's entry.
        CHECK(answer.size() == due[at].length || (at == 9 && answer.size() == 22), "order %zu: %zu bytes", at, answer.size());
      }
      CHECK(receiver.health.droppedFrames == 0, "%u dropped", receiver.health.droppedFrames);
    }
  }
  FACT("a body one byte shorter or longer is dropped and counted, never answered, for all 10") {
    for (int change = -1; change <= 1; change += 2) {
      Receiver receiver;
      const uint16_t epoch = receiver.bench.keeper.memory().epoch;
      const size_t lengths[] = {0, 0, 2, 7, 5, 6, 16, 0, 2, 2};
      unsigned dropped = 0;
      for (uint8_t type = 1; type <= 10; ++type) {
        const size_t length = lengths[type - 1];
        // A table with the wrong number of bytes has an answer: bad value.
        if (type == 7 || (length == 0 && change < 0)) continue;
        std::vector<uint8_t> body(length + static_cast<size_t>(change), 0);
        if (body.size() >= 2) body[0] = low(epoch), body[1] = high(epoch);
        CHECK(answerOf(receiver, frame(type, 1, body)).empty(), "type %u answered", type);
        CHECK(receiver.health.droppedFrames == ++dropped, "type %u: %u dropped", type, receiver.health.droppedFrames);
      }
      CHECK(!receiver.bench.hostOwns(), "the pump was claimed");
    }
  }
  FACT("types 0, 11 to 255 are dropped with any body of 0 to 80 bytes") {
    Receiver receiver;
    unsigned dropped = 0;
    for (unsigned type = 0; type < 256; ++type) {
      if (type >= 1 && type <= 10) continue;
      for (size_t length = 0; length <= 80; length += 5) {
        CHECK(answerOf(receiver, frame(static_cast<uint8_t>(type), 1, std::vector<uint8_t>(length, 0))).empty(),
              "type %u answered", type);
        CHECK(receiver.health.droppedFrames == ++dropped, "type %u not counted", type);
      }
    }
  }
  FACT("a frame of 84 bytes is read whole, one of 85 is dropped") {
    Receiver receiver;
    for (const size_t body : {size_t{80}, size_t{81}}) {
      const unsigned before = receiver.health.droppedFrames;
      answerOf(receiver, frame(7, 1, std::vector<uint8_t>(body, 0)));
      const bool answered = receiver.health.droppedFrames == before;
      CHECK(answered == (body == 80), "body of %zu bytes", body);
    }
  }
}

static void spoilt() {
  FACT("every order with each one of its bytes changed to each other value: no answer without a good checksum") {
    Receiver whole;
    whole.bench.pass(50);
    const auto orders = everyOrder(whole.bench.keeper.memory().epoch, 9);
    unsigned long tried = 0;
    for (const auto& order : orders)
      for (size_t place = 0; place < order.size(); ++place)
        for (unsigned value = 0; value < 256; ++value) {
          if (value == order[place]) continue;
          Receiver receiver;
          auto bytes = order;
          bytes[place] = static_cast<uint8_t>(value);
          receiver.take(bytes);
          ++tried;
          CHECK(receiver.unproven == 0 && receiver.overlong == 0, "byte %zu as %u", place, value);
          // One byte of a pair is less than the checksum's sixteen bits.
          CHECK(receiver.answered == 0, "byte %zu as %u answered", place, value);
        }
    CHECK(tried > 50000, "%lu tried", tried);
  }
  FACT("every order cut after each byte, then whole: exactly the whole one is answered") {
    Receiver whole;
    const auto orders = everyOrder(whole.bench.keeper.memory().epoch, 9);
    for (size_t kind = 0; kind < orders.size(); ++kind)
      for (size_t end = 0; end < orders[kind].size(); ++end) {
        Receiver receiver;
        receiver.take(std::vector<uint8_t>(orders[kind].begin(), orders[kind].begin() + static_cast<long>(end)));
        CHECK(receiver.answered == 0, "kind %zu cut at %zu answered", kind, end);
        receiver.take(orders[kind]);
        CHECK(receiver.answered == 1, "kind %zu after a cut at %zu: %u answers", kind, end, receiver.answered);
      }
  }
  FACT("10,000,000 random bytes: nothing is answered without a good checksum, nothing grows past its bound") {
    Chance chance(71);
    Receiver receiver;
    for (unsigned long byte = 0; byte < 10000000; ++byte) {
      // As likely as not a byte that means something here.
      const uint8_t likely[] = {0xF0, 0xF7, 0x0A, 0xF0, 0x0A, 0, 1, 2, 3, 5, 0xFF, 0xF9, 0x90, 0xE0};
      receiver.parser.take(chance.oneIn(2) ? likely[chance.between(0, 13)] : chance.byte());
      if (byte % 1000 == 0) receiver.bench.second();
      if (byte % 5000 == 0) receiver.parser.forget();
    }
    CHECK(receiver.unproven == 0, "%u answered without a checksum", receiver.unproven);
    CHECK(receiver.overlong == 0, "%u past the bound", receiver.overlong);
    CHECK(receiver.messages > 100000, "only %u messages", receiver.messages);
  }
  FACT("1,000,000 orders with 0 to 4 of their bytes changed, lost or doubled: no order with another epoch moves anything") {
    Chance chance(72);
    Receiver receiver;
    unsigned moved = 0;
    for (unsigned long turn = 0; turn < 1000000; ++turn) {
      const uint16_t epoch = receiver.bench.keeper.memory().epoch;
      const bool stale = chance.oneIn(2);
      const uint16_t said = stale ? static_cast<uint16_t>(epoch + chance.between(1, 65535)) : epoch;
      auto orders = everyOrder(said, chance.byte());
      auto bytes = orders[chance.between(0, 10)];
      for (uint32_t changes = chance.between(0, 4); changes > 0 && bytes.size() > 1; --changes) {
        const size_t place = chance.between(0, static_cast<uint32_t>(bytes.size() - 1));
        const auto at = bytes.begin() + static_cast<long>(place);
        switch (chance.between(0, 2)) {
          case 0:
            *at = chance.byte();
            break;
          case 1:
            bytes.erase(at);
            break;
          default: {
            // Not from within: the copy must be made before the room.
            const uint8_t twice = *at;
            bytes.insert(at, twice);
          }
        }
      }
      receiver.bench.look();
      const bool on = receiver.bench.keeper.pumpOn();
      const uint16_t hold = receiver.bench.keeper.memory().holdLeft;
      receiver.take(bytes);
      const bool did = receiver.bench.keeper.pumpOn() != on || receiver.bench.keeper.memory().holdLeft != hold ||
                       receiver.bench.keeper.memory().epoch != epoch;
      if (did) ++moved;
      CHECK(!stale || !did, "turn %lu: an order with epoch %u moved at %u", turn, said, epoch);
      receiver.bench.look();
      if (turn % 3 == 0) receiver.bench.second();
    }
    CHECK(receiver.unproven == 0 && receiver.overlong == 0, "%u, %u", receiver.unproven, receiver.overlong);
    CHECK(moved > 10000, "only %u moved anything", moved);
  }
  FACT("after any 300 bytes of rubbish an end and a whole question are answered, for 20,000 seeds") {
    for (uint64_t seed = 0; seed < 20000; ++seed) {
      Chance chance(seed);
      static Receiver receiver;
      for (int byte = 0; byte < 300; ++byte) receiver.parser.take(chance.byte());
      const unsigned before = receiver.answered;
      receiver.take(frame(2, 7, {}));
      CHECK(receiver.answered == before + 1, "seed %llu", static_cast<unsigned long long>(seed));
    }
  }
}

int main() {
  good();
  spoilt();
}
