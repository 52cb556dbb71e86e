// The table in the EEPROM, under cuts of power, worn cells and bits that turn over: docs/board-protocol.md, "EEPROM".
#include "bench.h"
#include "facts.h"

using namespace keeper;

static uint8_t bytesIn(const Table& table) { return static_cast<uint8_t>(6 + 8 * table.parts); }

// A good table that differs with the seed.
static Table tableFrom(Chance& chance) {
  Table table = tableOf(static_cast<Seconds>(chance.span(21600, 43200)), chance.span(60, 1800), {});
  const uint8_t parts = static_cast<uint8_t>(chance.between(1, 8));
  for (uint8_t at = 0; at < parts; ++at) {
    const Seconds rest = chance.span(180, 21600);
    table.part[at] = {static_cast<uint16_t>(at * 180 + chance.between(0, 179)), rest, chance.span(rest, 21600),
                      chance.span(30, 1800)};
  }
  table.parts = parts;
  return table;
}

static bool same(const Table& one, const Table& other) {
  return one.parts == other.parts && std::memcmp(&one, &other, bytesIn(one)) == 0;
}

struct Memories {
  CutStore store;
  Kept kept;
  Memories() { store.clear(); }
  bool put(const Table& table) { return Slots<CutStore>(store).put(kept, bytesOf(table), bytesIn(table)); }
  // As after a reset.
  Table found() {
    Table table;
    std::memset(static_cast<void*>(&table), 0, sizeof(table));
    kept = Slots<CutStore>(store).found(1800, table);
    return table;
  }
};

// Cuts the power at each write of a put over `before`, in each way, and says what is found then.
template <class Check>
static uint32_t atEveryCut(const Memories& before, const Table& put, Chance& chance, Check check) {
  Memories whole = before;
  whole.put(put);
  const uint32_t writes = whole.store.writes - before.store.writes;
  uint32_t cuts = 0;
  for (uint32_t at = 0; at < writes; ++at)
    for (const Torn torn : EVERY_TORN)
      for (int noise = 0; noise < (torn == Torn::Random || torn == Torn::HalfWritten ? 8 : 1); ++noise) {
        Memories cut = before;
        cut.store.cut(at, torn, chance.byte());
        cut.put(put);
        cut.store.mend();
        const Table found = cut.found();
        check(cut, found);
        ++cuts;
      }
  return cuts;
}

static void cuts() {
  FACT("power cut at every byte of a put, torn in 5 ways: the old table or the new one, in both slots") {
    Chance chance(21);
    uint32_t all = 0;
    for (int pair = 0; pair < 40; ++pair) {
      Memories memories;
      memories.found();
      Table old = tableFrom(chance);
      memories.put(old);
      for (int turn = 0; turn < 2; ++turn) {
        const Table next = tableFrom(chance);
        memories.store.mend();
        all += atEveryCut(memories, next, chance, [&](Memories& after, const Table& found) {
          CHECK(after.kept.slot != FLASH_SLOT, "pair %d: no table after a cut", pair);
          CHECK(same(found, old) || same(found, next), "pair %d: neither the old nor the new table", pair);
          CHECK(after.put(next) && same(after.found(), next), "pair %d: cannot be put again", pair);
        });
        memories.store.mend();
        memories.put(next);
        old = next;
      }
    }
    CHECK(all > 20000, "only %u cuts", all);
  }
  FACT("power cut at every byte of the first put of an empty EEPROM: the table of the flash or the new one") {
    Chance chance(22);
    for (int trial = 0; trial < 20; ++trial) {
      Memories memories;
      memories.found();
      const Table next = tableFrom(chance);
      atEveryCut(memories, next, chance, [&](Memories& after, const Table& found) {
        CHECK(after.kept.slot == FLASH_SLOT || same(found, next), "trial %d", trial);
      });
    }
  }
  FACT("in 1,000 random sequences of 20 puts, half of them cut, the last whole table or that of the cut holds") {
    for (uint64_t seed = 0; seed < 1000; ++seed) {
      Chance chance(seed + 1000);
      Memories memories;
      memories.found();
      Table holds = tableFrom(chance);
      memories.put(holds);
      for (int turn = 0; turn < 20; ++turn) {
        const Table next = tableFrom(chance);
        const bool cut = chance.oneIn(2);
        memories.store.mend();
        if (cut) memories.store.cut(chance.between(0, bytesIn(next) + 8u), EVERY_TORN[chance.between(0, 4)], chance.byte());
        memories.put(next);
        memories.store.mend();
        const Table found = memories.found();
        CHECK(same(found, next) || (cut && same(found, holds)), "seed %llu, turn %d", static_cast<unsigned long long>(seed),
              turn);
        holds = found;
      }
    }
  }
}

static void order() {
  FACT("of 70,000 puts in turn each is found, over the change from seq 65,535 to 0") {
    Chance chance(23);
    Memories memories;
    memories.found();
    Table tables[2] = {tableFrom(chance), tableFrom(chance)};
    for (int put = 0; put < 70000; ++put) {
      tables[put & 1].returnLag = static_cast<Seconds>(60 + put % 1700);
      CHECK(memories.put(tables[put & 1]), "put %d not taken", put);
      CHECK(same(memories.found(), tables[put & 1]), "put %d not found", put);
      CHECK(memories.kept.seq == static_cast<uint16_t>(put + 1), "seq %u after put %d", memories.kept.seq, put);
    }
  }
  FACT("the table in force is not written again: 0 writes") {
    Chance chance(24);
    const Setup setup = bareSetup();
    Bench bench(setup, plainTable());
    const Table table = tableFrom(chance);
    bench.claim();
    CHECK(bench.keeper.putTable(bench.keeper.memory().epoch, table, bytesIn(table)).result == Result::Done, "refused");
    const uint32_t before = bench.keeper.store().writes;
    const Answer again = bench.keeper.putTable(bench.keeper.memory().epoch, table, bytesIn(table));
    CHECK(again.result == Result::Done && again.value == 1, "result %u, value %u", static_cast<unsigned>(again.result),
          again.value);
    CHECK(bench.keeper.store().writes == before, "%u writes", bench.keeper.store().writes - before);
  }
}

static void wear() {
  FACT("a cell that takes no value: not stored and the old table in force, or stored and found, for each of 96 cells") {
    uint32_t refused = 0;
    for (uint16_t cell = 0; cell < 96; ++cell) {
      Chance chance(cell + 3000u);
      const Setup setup = bareSetup();
      Bench bench(setup, plainTable());
      const Table old = tableFrom(chance);
      const Table next = tableFrom(chance);
      bench.claim();
      bench.keeper.putTable(bench.keeper.memory().epoch, old, bytesIn(old));
      CHECK(bench.keeper.kept().slot == 0, "the first put went to slot %u", bench.keeper.kept().slot);
      bench.keeper.store().worn = static_cast<uint16_t>(96 + cell);
      const Answer answer = bench.keeper.putTable(bench.keeper.memory().epoch, next, bytesIn(next));
      const bool stored = answer.result == Result::Done;
      CHECK(stored || answer.result == Result::NotStored, "cell %u: result %u", cell, static_cast<unsigned>(answer.result));
      CHECK(same(bench.keeper.table(), stored ? next : old), "cell %u: another table in force", cell);
      bench.powerOn(4);
      CHECK(same(bench.keeper.table(), stored ? next : old), "cell %u: another table after power-on", cell);
      if (!stored) ++refused;
    }
    CHECK(refused > 10, "only %u cells mattered", refused);
  }
  FACT("any one of 8,192 bits turned over: the table in force, the one before it, or that of the flash") {
    Chance chance(31);
    const Setup setup = bareSetup();
    Bench bench(setup, plainTable());
    const Table old = tableFrom(chance);
    const Table next = tableFrom(chance);
    bench.claim();
    bench.keeper.putTable(bench.keeper.memory().epoch, old, bytesIn(old));
    bench.keeper.putTable(bench.keeper.memory().epoch, next, bytesIn(next));
    const CutStore whole = bench.keeper.store();
    uint32_t fellBack = 0;
    for (uint32_t bit = 0; bit < 1024 * 8; ++bit) {
      bench.keeper.store() = whole;
      bench.keeper.store().cell[bit / 8] = static_cast<uint8_t>(bench.keeper.store().cell[bit / 8] ^ (1u << (bit % 8)));
      bench.powerOn(bit);
      const Table& found = bench.keeper.table();
      CHECK(same(found, next) || same(found, old), "bit %u", bit);
      if (same(found, old)) ++fellBack;
    }
    CHECK(fellBack >= 8u * (bytesIn(next) + 6u), "%u bits told", fellBack);
  }
  FACT("both slots spoilt: the table of the flash holds, and the self-test tells it") {
    Chance chance(32);
    const Setup setup = bareSetup();
    Bench bench(setup, plainTable());
    for (int put = 0; put < 2; ++put) {
      const Table table = tableFrom(chance);
      bench.claim();
      bench.keeper.putTable(bench.keeper.memory().epoch, table, bytesIn(table));
    }
    bench.keeper.store().cell[20] ^= 4;
    bench.keeper.store().cell[96 + 20] ^= 4;
    bench.powerOn(6);
    CHECK(same(bench.keeper.table(), plainTable()) && bench.keeper.kept().slot == 2, "slot %u", bench.keeper.kept().slot);
    CHECK(bench.keeper.slotSpoilt(), "not told");
  }
  FACT("10,000 EEPROMs of random bytes: never a table that is not good") {
    Chance chance(33);
    for (int trial = 0; trial < 10000; ++trial) {
      Memories memories;
      for (uint8_t& cell : memories.store.cell) cell = chance.byte();
      memories.store.cell[0] = memories.store.cell[96] = 0x52;
      memories.store.cell[3] = memories.store.cell[99] = static_cast<uint8_t>(6 + 8 * chance.between(0, 9));
      const Table found = memories.found();
      CHECK(memories.kept.slot == FLASH_SLOT || isGood(found, memories.kept.count, 1800), "trial %d", trial);
    }
  }
  FACT("a stored table whose flood is longer than the longest-on of a new setup is not run by") {
    const Setup setup = bareSetup(1800);
    Bench bench(setup, plainTable());
    const Table longFlood = tableOf(7200, 480, {{0, 2400, 2400, 1800}});
    bench.claim();
    bench.keeper.putTable(bench.keeper.memory().epoch, longFlood, bytesIn(longFlood));
    const Setup shorter = bareSetup(900);
    bench.setup = &shorter;
    bench.powerOn(7);
    CHECK(same(bench.keeper.table(), plainTable()), "a flood of 1,800 s is run by");
  }
}

static void refusals() {
  FACT("a table that is not good writes nothing, nor one with a stale epoch, nor one without a claim") {
    Chance chance(34);
    const Setup setup = bareSetup();
    Bench bench(setup, plainTable());
    Table bad = tableFrom(chance);
    const uint16_t unclaimed = bench.keeper.memory().epoch;
    CHECK(bench.keeper.putTable(unclaimed, bad, bytesIn(bad)).result == Result::Stale, "taken without a claim");
    bench.claim();
    CHECK(bench.keeper.putTable(unclaimed, bad, bytesIn(bad)).result == Result::Stale, "taken with a stale epoch");
    bad.returnLag = 59;
    const Answer answer = bench.keeper.putTable(bench.keeper.memory().epoch, bad, bytesIn(bad));
    CHECK(answer.result == Result::BadValue, "result %u", static_cast<unsigned>(answer.result));
    CHECK(bench.keeper.store().writes == 0, "%u writes", bench.keeper.store().writes);
  }
}

int main() {
  cuts();
  order();
  wear();
  refusals();
}
