// The button under a finger, in the wet and at the start: docs/board-protocol.md, "Button".
#include <vector>

#include "bench.h"
#include "facts.h"

using namespace keeper;

struct Presses {
  unsigned shorts = 0;
  unsigned longs = 0;
  bool are(unsigned shortOnes, unsigned longOnes) const { return shorts == shortOnes && longs == longOnes; }
};

// Looked at as the firmware does it: every 50 ms while it is down or has something to tell, and as soon as it goes down.
struct Looked {
  Button button;
  Presses told;
  uint32_t due = 0;

  explicit Looked(bool downAtStart = false) { button.look(downAtStart); }
  void milli(uint32_t now, bool down) {
    if ((button.busy() && now < due) || (!down && !button.busy())) return;
    due = now + Button::LOOK_MILLIS;
    const Press press = button.look(down);
    if (press == Press::Short) ++told.shorts;
    if (press == Press::Long) ++told.longs;
  }
};

// Down in the given spans of milliseconds, from and until, of 60 s.
static Presses after(const std::vector<std::pair<uint32_t, uint32_t>>& downs, bool downAtStart = false) {
  Looked looked(downAtStart);
  for (uint32_t now = 0; now < 60000; ++now) {
    bool down = false;
    for (const auto& span : downs) down = down || (now >= span.first && now < span.second);
    looked.milli(now, down);
  }
  return looked.told;
}

int main() {
  FACT("held 1 to 50 ms it was not pressed, 51 to 3,000 ms once short, 3,051 ms to 30 s once long") {
    for (uint32_t held = 1; held <= 30000; held += held < 3200 ? 1 : 101) {
      const Presses told = after({{1000, 1000 + held}});
      if (held <= 50) CHECK(told.are(0, 0), "%u ms: %u short, %u long", held, told.shorts, told.longs);
      else if (held <= 3000) CHECK(told.are(1, 0), "%u ms: %u short, %u long", held, told.shorts, told.longs);
      // The looks are 50 ms apart.
      else if (held <= 3050) CHECK(told.shorts + told.longs == 1, "%u ms: %u short, %u long", held, told.shorts, told.longs);
      else CHECK(told.are(0, 1), "%u ms: %u short, %u long", held, told.shorts, told.longs);
    }
  }
  FACT("a long press is told while the finger is still on it: after 3.0 to 3.1 s") {
    Looked looked;
    uint32_t now = 0;
    while (looked.told.longs == 0 && now < 10000) looked.milli(now++, true);
    CHECK(now >= 3000 && now <= 3100, "after %u ms", now);
  }
  FACT("it works again after each of 200 presses, long and short in turn") {
    Looked looked;
    uint32_t now = 0;
    for (unsigned press = 1; press <= 200; ++press) {
      const uint32_t held = press % 2 == 0 ? 300 : 4000;
      for (uint32_t end = now + held; now < end; ++now) looked.milli(now, true);
      for (uint32_t end = now + 500; now < end; ++now) looked.milli(now, false);
      CHECK(looked.told.are(press / 2, (press + 1) / 2), "%u short, %u long after %u presses", looked.told.shorts,
            looked.told.longs, press);
    }
  }
  FACT("a button that never comes up has been pressed once") {
    CHECK(after({{500, 60000}}).are(0, 1), "more than once");
  }
  FACT("a finger that was on it at the start has pressed nothing, however long, and counts the next time") {
    for (const uint32_t held : {10u, 400u, 2000u, 20000u}) {
      CHECK(after({{0, held}}, true).are(0, 0), "%u ms told", held);
      CHECK(after({{0, held}, {held + 1000, held + 1300}}, true).are(1, 0), "%u ms: the next short one not told", held);
      CHECK(after({{0, held}, {held + 1000, held + 5000}}, true).are(0, 1), "%u ms: the next long one not told", held);
    }
  }
  FACT("contacts that bounce for up to 40 ms at both ends are one press, for 2,000 seeds") {
    for (uint64_t seed = 0; seed < 2000; ++seed) {
      Chance chance(seed);
      const uint32_t until = 1000 + chance.between(200, 2800);
      Looked looked;
      for (uint32_t now = 0; now < 8000; ++now) {
        const bool bounces = (now >= 1000 && now < 1040) || (now >= until && now < until + 40);
        looked.milli(now, bounces ? chance.oneIn(2) : now >= 1040 && now < until);
      }
      CHECK(looked.told.are(1, 0), "%u short, %u long with seed %llu", looked.told.shorts, looked.told.longs,
            static_cast<unsigned long long>(seed));
    }
  }

  const Setup setup = bareSetup();
  FACT("a short press floods at once, 600 s, and while that runs further presses ask for no other") {
    Bench bench(setup, plainTable());
    bench.passUntil(true, 60);
    bench.passUntil(false, 700);
    bench.pass(1000);
    bench.press(false);
    bench.second();
    CHECK(bench.on, "no flood");
    for (int second = 0; second < 500; ++second) {
      bench.press(false);
      bench.second();
    }
    bench.passUntil(false, 700);
    CHECK(bench.runs.back().ran() == 600, "%u s", bench.runs.back().ran());
    bench.passUntil(true, 5000);
    CHECK(bench.since - bench.runs.back().until == 2400, "the next after %u s", bench.since - bench.runs.back().until);
  }
  FACT("a short press in shortest-off floods when that has passed: 31 s after the last run") {
    Bench bench(setup, plainTable());
    bench.passUntil(true, 60);
    bench.passUntil(false, 700);
    bench.press(false);
    bench.passUntil(true, 100);
    CHECK(bench.since - bench.runs.back().until == 31, "after %u s", bench.since - bench.runs.back().until);
  }
  FACT("while a host owns the pump a short press moves nothing, and is in the log") {
    Bench bench(setup, plainTable());
    bench.passUntil(true, 60);
    bench.passUntil(false, 700);
    bench.claim();
    bench.passOwned(100);
    const uint16_t number = bench.keeper.memory().logNext;
    bench.press(false);
    bench.passOwned(100);
    CHECK(!bench.on, "a flood");
    bench.keeper.letGo(bench.keeper.memory().epoch);
    bench.pass(100);
    CHECK(!bench.on, "a flood when the host lets go");
    const Entry& entry = bench.keeper.log().at(number);
    CHECK(entry.kind == Kind::Button && entry.detail == 0, "kind %u", static_cast<unsigned>(entry.kind));
  }
  FACT("a long press stops a host's flood at once and refuses its starts for 1,800 s") {
    Bench bench(setup, plainTable());
    bench.claim();
    bench.passOwned(100);
    bench.pump(1, 600);
    bench.passOwned(10);
    bench.press(true);
    CHECK(!bench.on, "runs on");
    for (int second = 0; second < 1799; ++second) {
      bench.passOwned(1);
      CHECK(bench.pump(1, 600).result == Result::Held, "started after %d s", second);
    }
  }
  FACT("a flood of the keeper that its button ends while no host owns the pump is not told as judged by a host") {
    for (const uint32_t after : {100u, 500u}) {
      const Setup bare = bareSetup();
      Bench bench(bare, plainTable());
      CHECK(bench.passUntil(true, 100), "no start");
      bench.pass(after);
      bench.press(true);
      bench.pass(1000);
      for (uint16_t number = 0; number < bench.keeper.memory().logNext; ++number) {
        const Entry& entry = bench.keeper.log().at(number);
        if (entry.kind == Kind::Run)
          CHECK(entry.detail == (after == 100 ? 36 : 33), "cut after %u s: detail %u", after, entry.detail);
      }
    }
  }
}
