// A person's hold, from the host or the button: docs/board-protocol.md, "Hold" and "Button".
#include "bench.h"
#include "facts.h"

using namespace keeper;

static const Setup SETUP = bareSetup();

static Bench flooding() {
  Bench bench(SETUP, plainTable());
  bench.passUntil(true, 60);
  bench.pass(10);
  return bench;
}
// Presses the button long each so many seconds; how long the pump was off since the first press.
static uint32_t offUnder(Bench& bench, uint32_t every, uint32_t most) {
  const uint32_t from = bench.now;
  bench.press(true);
  while (!bench.on && bench.now - from < most) {
    bench.second();
    if (!bench.on && (bench.now - from) % every == 0) bench.press(true);
  }
  return bench.now - from;
}

static void byHost() {
  FACT("a hold of the host of 1 to 14,400 s stops the pump at once and ends by itself after just so long") {
    for (uint32_t seconds = 1; seconds <= 14400; seconds += seconds < 100 ? 1 : 1100) {
      Bench bench = flooding();
      bench.claim();
      CHECK(bench.hold(static_cast<Seconds>(seconds)).result == Result::Done && !bench.on, "runs on");
      bench.keeper.letGo(bench.keeper.memory().epoch);
      const uint32_t from = bench.now;
      bench.passUntil(true, 20000);
      // Not before the motor may start again.
      const uint32_t due = seconds < 31 ? 31 : seconds;
      CHECK(bench.now - from == due, "start after %u s of %u", bench.now - from, seconds);
    }
  }
  FACT("a hold of 14,401 to 65,535 s is a bad value") {
    Bench bench = flooding();
    bench.claim();
    for (unsigned seconds = 14401; seconds <= 65535; ++seconds)
      CHECK(bench.hold(static_cast<Seconds>(seconds)).result == Result::BadValue, "%u s taken", seconds);
    CHECK(bench.on, "the pump was stopped");
  }
  FACT("under a hold no pump command starts anything: refused with the seconds left") {
    Bench bench = flooding();
    bench.claim();
    bench.hold(900);
    for (uint32_t second = 0; second < 899; ++second) {
      const Answer answer = bench.pump(1, 60);
      CHECK(answer.result == Result::Held && answer.value == 900 - second, "result %u, %u s",
            static_cast<unsigned>(answer.result), answer.value);
      bench.passOwned(1);
      CHECK(!bench.on, "runs after %u s", second);
    }
  }
  FACT("a release leaves the 10 s in which the buzzer warns, also when it is said again, and a stale one nothing") {
    Bench bench = flooding();
    bench.claim();
    bench.hold(900);
    bench.passOwned(100);
    CHECK(bench.keeper.hold(static_cast<uint16_t>(bench.keeper.memory().epoch - 1), 0, 0).result == Result::Stale, "taken");
    CHECK(bench.keeper.memory().holdLeft == 800, "%u s left", bench.keeper.memory().holdLeft);
    for (Seconds left = 10; left > 0; --left) {
      const Answer answer = bench.hold(0);
      CHECK(answer.result == Result::Done && answer.value == left, "%u s left of %u", answer.value, left);
      CHECK(bench.keeper.signals().buzzer && bench.pump(1, 60).result == Result::Held, "no warning with %u s left", left);
      bench.passOwned(1);
    }
    CHECK(bench.pump(1, 60).result == Result::Done, "no start after the release");
  }
}

static void byButton() {
  FACT("a long press holds for 1,800 s") {
    Bench bench = flooding();
    CHECK(offUnder(bench, 100000, 20000) == 1800, "%u s", bench.now);
  }
  FACT("renewed each 300 to 1,790 s the button holds for 5,400 to 7,500 s, each 60 to 290 s for 14,400 to 14,700") {
    for (uint32_t every = 60; every <= 1790; every += 10) {
      Bench bench = flooding();
      const uint32_t off = offUnder(bench, every, 50000);
      if (every >= 300) CHECK(off >= 5400 && off <= 7500, "%u s, pressed each %u s", off, every);
      else CHECK(off >= 14400 && off <= 14700, "%u s, pressed each %u s", off, every);
    }
  }
  FACT("a press in the last seconds of a hold whose two hours are spent holds for 300 s more") {
    Bench bench = flooding();
    bench.press(true);
    for (int hold = 0; hold < 4; ++hold) {
      bench.pass(1795);
      bench.press(true);
    }
    CHECK(bench.keeper.memory().holdLeft == 300 && !bench.on, "%u s left", bench.keeper.memory().holdLeft);
  }
  FACT("a wet button, down 5 s and up 5 s for 24 h, holds for 4 h and then stops no flood of the table") {
    Bench bench = flooding();
    bench.runs.clear();
    const uint32_t from = bench.now;
    while (bench.now - from < 86400) {
      bench.press(true);
      bench.pass(10);
    }
    uint32_t whole = 0;
    for (const Run& run : bench.runs) whole += run.ran() == 600 ? 1 : 0;
    // Of 20 h, a flood each 3,000 s: one less, begun at either end.
    CHECK(whole >= 22, "%u whole floods", whole);
    CHECK(bench.runs.size() <= whole + 2, "%zu runs", bench.runs.size());
  }
  FACT("left alone for 10 min a button that was wet holds for 1,800 s again, and before that not at all") {
    for (const uint32_t alone : {580u, 600u}) {
      Bench bench = flooding();
      for (int press = 0; press < 1500; ++press) {
        bench.press(true);
        bench.pass(10);
      }
      bench.pass(alone);
      bench.press(true);
      CHECK((bench.keeper.memory().holdLeft == 1800) == (alone >= 600), "%u s after %u s", bench.keeper.memory().holdLeft, alone);
    }
  }
  FACT("a press under a longer hold of the host is no hold of the button: its hours are not spent by it") {
    Bench bench = flooding();
    bench.claim();
    bench.hold(14400);
    bench.press(true);
    bench.passOwned(14399);
    bench.keeper.letGo(bench.keeper.memory().epoch);
    CHECK(bench.passUntil(true, 60), "no flood after it");
    bench.pass(10);
    bench.press(true);
    CHECK(!bench.on && bench.keeper.memory().holdLeft == 1800, "%u s", bench.keeper.memory().holdLeft);
  }
  FACT("a host that says each hold of the button back makes it no longer: 24 h of presses hold as without a host") {
    Bench bench = flooding();
    bench.claim();
    uint32_t free = 0;
    for (uint32_t second = 0; second < 86400; ++second) {
      if (second % 60 == 0) {
        bench.press(true);
        const Seconds held = bench.keeper.memory().holdLeft;
        bench.passOwned(1);
        if (held > 0) bench.hold(held);
      }
      bench.beat();
      bench.second();
      free += bench.keeper.memory().holdLeft == 0 ? 1 : 0;
    }
    CHECK(free > 70000, "free for %u s of 86,400", free);
  }
  FACT("once two hours are spent a long press still stops the pump at once, for 300 s") {
    Bench bench = flooding();
    offUnder(bench, 600, 50000);
    CHECK(bench.on, "not started");
    bench.pass(5);
    bench.press(true);
    CHECK(!bench.on && bench.keeper.memory().holdLeft == 300, "%u s", bench.keeper.memory().holdLeft);
  }
  FACT("a whole flood gives the button its two hours back") {
    Bench bench = flooding();
    offUnder(bench, 600, 50000);
    bench.passUntil(false, 700);
    bench.press(true);
    CHECK(bench.keeper.memory().holdLeft == 1800, "%u s", bench.keeper.memory().holdLeft);
  }
  FACT("a long press does not cut short a longer hold of the host") {
    Bench bench = flooding();
    bench.claim();
    bench.hold(14400);
    bench.passOwned(60);
    bench.press(true);
    CHECK(bench.keeper.memory().holdLeft == 14340, "%u s left", bench.keeper.memory().holdLeft);
  }
  FACT("an order that does not know of the last long press, of 1 to 65,535 before it, ends or shortens no hold") {
    Bench bench = flooding();
    bench.claim();
    bench.press(true);
    bench.passOwned(60);
    const Memory& memory = bench.keeper.memory();
    for (uint16_t before = 1; before != 0; ++before) {
      const Seconds seconds = before % 1740;
      const Answer answer = bench.keeper.hold(memory.epoch, seconds, static_cast<uint16_t>(memory.presses - before));
      CHECK(answer.result == Result::Held && answer.value == 1740 && memory.holdLeft == 1740, "%u presses before, %u s left", before,
            memory.holdLeft);
    }
  }
  FACT("a hold of the button is made longer by a hold of the host, never shorter; a release that knows of it ends it") {
    Bench bench = flooding();
    bench.claim();
    bench.press(true);
    CHECK(bench.hold(1799).result == Result::Held && bench.keeper.memory().holdLeft == 1800, "shortened");
    CHECK(bench.hold(3600).result == Result::Done && bench.keeper.memory().holdLeft == 3600, "not lengthened");
    CHECK(bench.hold(60).result == Result::Done && bench.keeper.memory().holdLeft == 60, "the host's own not shortened");
    bench.press(true);
    CHECK(bench.hold(0).result == Result::Done && bench.keeper.memory().holdLeft == 10, "not released");
  }
  FACT("under a hold a short press starts nothing, then or at its end") {
    Bench bench(SETUP, plainTable());
    bench.pass(700);
    bench.press(true);
    for (int second = 0; second < 1799; ++second) {
      bench.press(false);
      bench.second();
      CHECK(!bench.on, "runs after %d s", second);
    }
    bench.pass(100);
    CHECK(!bench.on, "a flood that was asked for under the hold begins after it");
  }
  FACT("a flood that was asked for just before a hold does not begin at its end") {
    Bench bench(SETUP, plainTable());
    bench.passUntil(true, 60);
    bench.passUntil(false, 700);
    bench.press(false);
    bench.second();
    bench.press(true);
    bench.pass(1900);
    CHECK(!bench.on && bench.runs.size() == 1, "it began");
  }
}

static void outlives() {
  FACT("a hold outlives host, lease and 1,000 resets: the pump does not run for its 14,400 s, and runs then") {
    Bench bench = flooding();
    bench.claim();
    bench.hold(14400);
    const uint32_t from = bench.now;
    for (uint32_t second = 1; second < 14400; ++second) {
      bench.second();
      if (second % 14 == 0) bench.reset(second % 28 == 0 ? WATCHDOG : EXTERNAL);
      CHECK(!bench.on, "runs after %u s", second);
    }
    bench.passUntil(true, 40);
    CHECK(bench.on && bench.now - from <= 14400 + 16, "after %u s", bench.now - from);
  }
  FACT("for the last 10 s of a hold the buzzer sounds, and not before, with and without a host") {
    for (const bool host : {false, true}) {
      Bench bench = flooding();
      bench.claim();
      bench.hold(600);
      if (!host) bench.keeper.letGo(bench.keeper.memory().epoch);
      for (uint32_t left = 600; left > 0; --left) {
        // Each minute the buzzer tells that nobody but the keeper is there.
        const bool beeps = bench.keeper.signals().buzzer;
        CHECK(left <= 10 ? beeps : (!beeps || !host), "%u s left, %s", left, host ? "host" : "keeper");
        if (host) bench.beat();
        bench.second();
      }
      bench.second();
      CHECK(host || bench.on, "no start at the end");
    }
  }
  FACT("a hold begun and released at each second of a rest doubles no flood") {
    for (uint32_t at = 1; at < 2300; at += 13) {
      Bench bench(SETUP, plainTable());
      bench.passUntil(true, 60);
      bench.passUntil(false, 700);
      bench.claim();
      bench.passOwned(at);
      bench.hold(600);
      bench.passOwned(50);
      bench.hold(0);
      bench.keeper.letGo(bench.keeper.memory().epoch);
      bench.passUntil(true, 3000);
      CHECK(bench.since - bench.runs[0].until == 2400, "flood after %u s", bench.since - bench.runs[0].until);
    }
  }
}

int main() {
  byHost();
  byButton();
  outlives();
}
