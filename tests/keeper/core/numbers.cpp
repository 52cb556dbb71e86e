// Spans and the checksum: docs/board-protocol.md, "Frames" and "What the board does by itself".
#include "bench.h"
#include "facts.h"

using namespace keeper;

// CRC-16/CCITT-FALSE bit by bit, after its definition in the protocol page.
static uint16_t crcByBits(const uint8_t* bytes, size_t count) {
  unsigned crc = 0xFFFF;
  for (size_t at = 0; at < count; ++at)
    for (int bit = 7; bit >= 0; --bit) {
      const bool top = ((crc >> 15) & 1u) != ((bytes[at] >> bit) & 1u);
      crc = (crc << 1) & 0xFFFFu;
      if (top) crc ^= 0x1021u;
    }
  return static_cast<uint16_t>(crc);
}

static void spans() {
  FACT("an age counts to 65,535 and stops there for 200,000 s") {
    Seconds age = 0;
    for (uint32_t second = 1; second <= 265535; ++second) {
      age = older(age);
      CHECK(age == (second < 65535 ? second : 65535), "%u after %u s", age, second);
    }
  }
  FACT("what is left counts down to 0 and stops there") {
    Seconds left = 300;
    for (int second = 1; second <= 500; ++second) {
      left = less(left);
      CHECK(left == (second < 300 ? 300 - second : 0), "%u after %d s", left, second);
    }
  }
  FACT("an age plus a span never passes 65,535, for all ages and 9 spans") {
    for (const unsigned by : {0u, 1u, 2u, 60u, 1800u, 43200u, 65533u, 65534u, 65535u})
      for (unsigned age = 0; age <= 65535; ++age) {
        const unsigned due = age + by > 65535 ? 65535 : age + by;
        CHECK(olderBy(static_cast<Seconds>(age), static_cast<Seconds>(by)) == due, "%u and %u", age, by);
      }
  }
}

static void checksum() {
  FACT("the checksum of 123456789 is 0x29B1") {
    const uint8_t digits[] = {'1', '2', '3', '4', '5', '6', '7', '8', '9'};
    CHECK(crcOf(digits, 9) == 0x29B1, "0x%04X", crcOf(digits, 9));
    CHECK(crcByBits(digits, 9) == 0x29B1, "the check itself gives 0x%04X", crcByBits(digits, 9));
  }
  FACT("the checksum is that of its polynomial for 2,000 random texts of 0 to 255 bytes") {
    Chance chance(11);
    for (int text = 0; text < 2000; ++text) {
      uint8_t bytes[255];
      for (uint8_t& byte : bytes) byte = chance.byte();
      const uint8_t count = chance.byte();
      CHECK(crcOf(bytes, count) == crcByBits(bytes, count), "text %d of %u bytes", text, count);
    }
  }
}

static void longLives() {
  FACT("after a hold of 265,535 s (renewed each hour) no age has wrapped, and the pump has not run") {
    const Setup setup = bareSetup();
    Bench bench(setup, plainTable());
    bench.claim();
    for (uint32_t second = 0; second < 265535; ++second) {
      bench.beat();
      if (second % 3600 == 0) bench.hold(14400);
      bench.second();
    }
    CHECK(bench.runs.empty() && !bench.on, "%zu runs", bench.runs.size());
    for (uint8_t age = 0; age < AGES; ++age)
      CHECK(bench.keeper.memory().age[age] == FOREVER, "age %u is %u", age, bench.keeper.memory().age[age]);
    CHECK(bench.keeper.memory().uptime == 265535, "uptime %u", bench.keeper.memory().uptime);
  }
  FACT("the pump is found due at once when a hold of 265,535 s ends") {
    const Setup setup = bareSetup();
    Bench bench(setup, plainTable());
    bench.claim();
    for (uint32_t second = 0; second < 265535; ++second) {
      bench.beat();
      if (second % 3600 == 0) bench.hold(14400);
      bench.second();
    }
    bench.keeper.letGo(bench.keeper.memory().epoch);
    CHECK(bench.passUntil(true, 14401), "no flood");
  }
  FACT("floods go on by the table while the uptime passes 2^32 s, as it does 2^31 s") {
    for (const uint32_t from : {0xFFFFF000u, 0x7FFFF000u}) {
      const Setup setup = bareSetup();
      Bench bench(setup, plainTable());
      bench.pass(20);
      // Part of the memory that is kept, so preset there; its sum is that of the memory.
      Memory& memory = const_cast<Memory&>(bench.keeper.memory());
      memory.uptime = from;
      bench.pass(20000);
      CHECK(bench.keeper.memory().uptime == from + 20000u, "uptime %u", bench.keeper.memory().uptime);
      CHECK(bench.runs.size() == 7, "%zu floods", bench.runs.size());
      for (size_t at = 1; at < bench.runs.size(); ++at)
        CHECK(bench.runs[at].from - bench.runs[at - 1].until == 2400, "rest of %u s",
              bench.runs[at].from - bench.runs[at - 1].until);
      bench.reset();
      CHECK(bench.keeper.memory().resets == 1, "forgotten over the reset after %u", from);
    }
  }
}

int main() {
  spans();
  checksum();
  longLives();
}
