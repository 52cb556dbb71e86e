// What is kept over a reset and what is told of it: memory, log, signals. docs/board-protocol.md, "Log", "Buzzer and lamp".
#include "bench.h"
#include "facts.h"

using namespace keeper;

static const Setup SETUP = bareSetup();

static std::vector<Entry> entries(const Bench& bench) {
  std::vector<Entry> all;
  const Memory& memory = bench.keeper.memory();
  for (uint16_t left = memory.logKept; left > 0; --left)
    all.push_back(bench.keeper.log().at(static_cast<uint16_t>(memory.logNext - left)));
  return all;
}

static void kept() {
  FACT("any one bit of the memory turned over: all is forgotten, the board settles 15 s and floods once") {
    Bench before(SETUP, plainTable());
    before.pass(1500);
    before.claim();
    before.hold(600);
    const unsigned bits = (offsetof(Memory, check) + sizeof(Memory::check)) * 8;
    for (unsigned bit = 0; bit < bits; ++bit) {
      Bench bench = before;
      uint8_t* at = reinterpret_cast<uint8_t*>(const_cast<Memory*>(&bench.keeper.memory()));
      at[bit / 8] = static_cast<uint8_t>(at[bit / 8] ^ (1u << (bit % 8)));
      bench.reset();
      const Memory& memory = bench.keeper.memory();
      CHECK(memory.resets == 0 && memory.holdLeft == 0 && memory.age[RESTED] == FOREVER && bench.keeper.settling(),
            "bit %u kept", bit);
      CHECK(!bench.on, "bit %u: the pump runs", bit);
      const uint32_t from = bench.now;
      CHECK(bench.passUntil(true, 400) && bench.since - from >= 15, "bit %u: start after %u s", bit, bench.since - from);
    }
  }
  FACT("the checksum holds after every second and every order: 200,000 of them") {
    Chance chance(3);
    Bench bench(SETUP, plainTable());
    for (int step = 0; step < 200000; ++step) {
      switch (chance.between(0, 7)) {
        case 0:
          bench.claim();
          break;
        case 1:
          bench.beat();
          break;
        case 2:
          bench.pump(static_cast<uint8_t>(chance.between(0, 2)), chance.span(0, 100));
          break;
        case 3:
          bench.hold(chance.span(0, 20));
          break;
        case 4:
          bench.keeper.letGo(bench.keeper.memory().epoch);
          break;
        case 5:
          bench.press(chance.oneIn(50));
          break;
        default:
          bench.second();
      }
      CHECK(bench.keeper.memory().check == checkOf(bench.keeper.memory()), "step %d", step);
    }
  }
  FACT("ages, hold, time of day, tank, alarm and retries are found again after a reset") {
    Setup setup = bareSetup();
    setup.floatLow = {5, 0};
    Bench bench(setup, plainTable());
    bench.pass(1500);
    bench.see(FLOAT_LOW, true);
    bench.claim();
    bench.keeper.heartbeat(bench.keeper.memory().epoch, 10, 700, 30, 0);
    bench.hold(4000);
    bench.pass(20);
    const Memory was = bench.keeper.memory();
    bench.reset();
    const Memory& is = bench.keeper.memory();
    for (uint8_t age = 0; age < AGES; ++age) CHECK(is.age[age] == was.age[age], "age %u: %u of %u", age, is.age[age], was.age[age]);
    CHECK(is.holdLeft == was.holdLeft && is.minute == was.minute && is.second == was.second && is.tank == Tank::Low,
          "hold %u, minute %u", is.holdLeft, is.minute);
    CHECK(is.resets == was.resets + 1 && is.uptime == 0, "%u resets, uptime %u", is.resets, is.uptime);
    CHECK(!bench.hostOwns(), "the host still owns the pump");
  }
}

static void log() {
  FACT("each run of a day is in the log once, with its start, its seconds, and who began and ended it") {
    Bench bench(SETUP, plainTable());
    uint16_t number = bench.keeper.memory().logNext;
    size_t seen = 0;
    while (bench.now < 86400) {
      // By turns a run of the host, stopped by it.
      if (!bench.on && bench.now % 5000 == 1000) {
        bench.claim();
        bench.pump(1, 600);
        bench.passOwned(50);
        bench.pump(0, 0);
        bench.keeper.letGo(bench.keeper.memory().epoch);
      }
      bench.second();
      for (; number != bench.keeper.memory().logNext; ++number) {
        const Entry& entry = bench.keeper.log().at(number);
        if (entry.kind != Kind::Run) continue;
        CHECK(seen < bench.runs.size(), "run %zu was told before it was", seen);
        if (fact.failed()) break;
        const Run& run = bench.runs[seen++];
        CHECK(entry.at == static_cast<int32_t>(run.from) && entry.value == run.ran(), "at %d for %u s: %u, %u s", entry.at,
              entry.value, run.from, run.ran());
        const uint8_t due = run.ran() == 50 ? (16 | 5) : (32 | 1);
        CHECK(entry.detail == due, "detail %u of a run of %u s", entry.detail, run.ran());
      }
    }
    CHECK(seen == bench.runs.size() - (bench.on ? 1 : 0) && seen > 25, "%zu of %zu told", seen, bench.runs.size());
  }
  FACT("over 40 resets each entry keeps its true moment, seconds before the last reset counted as negative") {
    Bench bench(SETUP, plainTable());
    uint32_t up = 0;
    std::vector<uint32_t> at;
    for (int reset = 0; reset < 40; ++reset) {
      bench.pass(100 + static_cast<uint32_t>(reset) * 37);
      bench.claim();
      at.push_back(bench.now);
      bench.reset();
      up = bench.now;
      bench.pass(11);
      size_t owners = 0;
      for (const Entry& entry : entries(bench))
        if (entry.kind == Kind::Owner && entry.detail == 1) ++owners;
      size_t place = at.size() - owners;
      for (const Entry& entry : entries(bench)) {
        if (entry.kind != Kind::Owner || entry.detail != 1) continue;
        CHECK(entry.at == static_cast<int32_t>(at[place]) - static_cast<int32_t>(up), "at %d for %d", entry.at,
              static_cast<int32_t>(at[place]) - static_cast<int32_t>(up));
        ++place;
      }
    }
  }
  FACT("a run that a reset cut in its first half is told as cut short, and in its second half too, with its seconds") {
    for (const uint32_t ran : {1u, 299u, 301u, 599u}) {
      Bench bench(SETUP, plainTable());
      bench.passUntil(true, 60);
      bench.pass(ran);
      bench.reset();
      bool found = false;
      for (const Entry& entry : entries(bench)) {
        if (entry.kind != Kind::Run) continue;
        found = true;
        CHECK((entry.detail & 15) == 4 && entry.value == ran && entry.at == -static_cast<int32_t>(ran),
              "verdict %u, %u s at %d", entry.detail & 15, entry.value, entry.at);
      }
      CHECK(found, "not told after %u s", ran);
    }
  }
  FACT("numbers go on from 65,535 to 0, and the last 32 entries are kept") {
    Bench bench(SETUP, plainTable());
    for (unsigned turn = 0; turn < 70000; ++turn) {
      const uint16_t number = bench.keeper.memory().logNext;
      CHECK(number == static_cast<uint16_t>(turn + 1), "number %u at turn %u", number, turn);
      bench.claim();
      const Entry& entry = bench.keeper.log().at(number);
      CHECK(entry.kind == Kind::Owner && entry.detail == 1, "kind %u", static_cast<unsigned>(entry.kind));
    }
    CHECK(bench.keeper.memory().logKept == 32, "%u kept", bench.keeper.memory().logKept);
  }
  FACT("reset, hold and its end, release, both presses, and each change of owner are told with their details") {
    Bench bench(SETUP, plainTable());
    bench.pass(5);
    bench.reset(BROWN_OUT);
    bench.claim();
    bench.hold(100);
    bench.hold(0);
    bench.hold(5);
    bench.passOwned(6);
    bench.press(true);
    bench.keeper.letGo(bench.keeper.memory().epoch);
    bench.claim();
    bench.pass(10);
    bench.press(false);
    const struct {
      Kind kind;
      uint8_t detail;
      uint16_t value;
    } due[] = {{Kind::Reset, 1, 0},    {Kind::Reset, 4, 1},     {Kind::Owner, 1, 0},    {Kind::HoldBegan, 0, 100},
               {Kind::HoldEnded, 1, 10}, {Kind::HoldEnded, 0, 0}, {Kind::Button, 1, 1800},
               {Kind::HoldBegan, 1, 1800}, {Kind::Owner, 2, 0}, {Kind::Owner, 1, 0},    {Kind::Owner, 0, 0},
               {Kind::Button, 0, 0}};
    const std::vector<Entry> all = entries(bench);
    CHECK(all.size() == 12, "%zu entries", all.size());
    for (size_t at = 0; at < all.size() && at < 12; ++at)
      CHECK(all[at].kind == due[at].kind && all[at].detail == due[at].detail && all[at].value == due[at].value,
            "entry %zu: kind %u, detail %u, value %u", at, static_cast<unsigned>(all[at].kind), all[at].detail, all[at].value);
  }
}

struct Pattern {
  unsigned buzzer;
  unsigned lamp;
};
// Seconds of 60 in which each is on.
static Pattern pattern(Bench& bench) {
  Pattern pattern = {0, 0};
  for (int second = 0; second < 60; ++second) {
    bench.second();
    pattern.buzzer += bench.keeper.signals().buzzer ? 1 : 0;
    pattern.lamp += bench.keeper.signals().lamp ? 1 : 0;
  }
  return pattern;
}

static void signals() {
  const auto shows = [](Bench& bench, unsigned buzzer, unsigned lamp, const char* what, facts::Fact& fact) {
    const Pattern seen = pattern(bench);
    CHECK(seen.buzzer == buzzer && seen.lamp == lamp, "%s: buzzer %u, lamp %u s of 60", what, seen.buzzer, seen.lamp);
  };
  FACT("a board that never had a host: lamp 30 s of 60, and no buzzer") {
    Bench bench(SETUP, plainTable());
    bench.pass(300);
    shows(bench, 0, 30, "alone", fact);
  }
  FACT("nobody but the keeper: buzzer 1 s and lamp 30 s of 60, also after a reset") {
    Bench bench(SETUP, plainTable());
    bench.claim();
    bench.pass(300);
    shows(bench, 1, 30, "host gone", fact);
    bench.reset();
    shows(bench, 1, 30, "after a reset", fact);
  }
  FACT("missed, mains lost and both wet: buzzer 12 s and lamp 60 s of 60") {
    Setup setup = bareSetup();
    setup.returnKind = Fitted::Contact;
    setup.water = {2, 0};
    Bench missed(setup, plainTable());
    missed.see(WATER, false);
    missed.pass(700);
    shows(missed, 12, 60, "missed", fact);
    Bench mains(SETUP, plainTable());
    mains.see(MAINS, false);
    mains.pass(60);
    shows(mains, 12, 60, "mains", fact);
    Bench wet(SETUP, plainTable());
    wet.see(LEAK, true);
    wet.pass(60);
    shows(wet, 2, 60, "leak alone", fact);
    wet.see(OVERFLOW_, true);
    shows(wet, 12, 60, "both wet", fact);
  }
  FACT("a relay whose contact stays closed 6 s after the pump went off: buzzer 12 s of 60; not where it rests closed") {
    for (const DeadBoard rest : {DeadBoard::PumpStops, DeadBoard::PumpRuns}) {
      Setup setup = bareSetup();
      setup.deadBoard = rest;
      Bench bench(setup, plainTable());
      bench.passUntil(true, 100);
      bench.see(READ_BACK, true);
      bench.passUntil(false, 700);
      bench.pass(6);
      shows(bench, rest == DeadBoard::PumpStops ? 12 : 0, rest == DeadBoard::PumpStops ? 60 : 30, "closed", fact);
      bench.see(READ_BACK, false);
      bench.pass(60);
      shows(bench, 0, 30, "open", fact);
    }
  }
  FACT("tank low: buzzer 2 s and lamp 60 s of 60") {
    Bench bench(SETUP, plainTable());
    bench.see(FLOAT_LOW, true);
    bench.pass(60);
    shows(bench, 2, 60, "low", fact);
  }
  FACT("with a host: as its last heartbeat says, whatever the keeper thinks") {
    for (uint8_t said = 0; said < 4; ++said) {
      Bench bench(SETUP, plainTable());
      bench.see(MAINS, false);
      bench.pass(60);
      bench.claim();
      for (int second = 0; second < 60; ++second) {
        bench.keeper.heartbeat(bench.keeper.memory().epoch, 10, 0xFFFF, 0, said);
        bench.second();
        const Signals shown = bench.keeper.signals();
        CHECK(shown.buzzer == ((said & 1) != 0) && shown.lamp == ((said & 2) != 0), "signals %u: %d, %d", said, shown.buzzer,
              shown.lamp);
      }
    }
  }
}

int main() {
  kept();
  log();
  signals();
}
