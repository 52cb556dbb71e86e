// Which tables a board accepts, and which part of one is in force: docs/board-protocol.md, "Table".
#include "bench.h"
#include "facts.h"

using namespace keeper;

static uint8_t bytesIn(const Table& table) { return static_cast<uint8_t>(6 + 8 * table.parts); }
static bool taken(const Table& table, Seconds longestOn = 5400) { return isGood(table, bytesIn(table), longestOn); }

struct Bound {
  const char* what;
  void (*set)(Table&, uint16_t);
  uint16_t least;
  uint16_t most;
};

// Of a table of two parts that leaves room around each value.
static Table roomy() { return tableOf(43200, 480, {{300, 1000, 2000, 600}, {900, 1000, 2000, 600}}); }

static const Bound BOUNDS[] = {
    {"return lag", [](Table& t, uint16_t v) { t.returnLag = v; }, 60, 1800},
    {"rest, below its cool rest", [](Table& t, uint16_t v) { t.part[0].rest = v; }, 180, 2000},
    {"cool rest, from its rest on", [](Table& t, uint16_t v) { t.part[0].coolRest = v; }, 1000, 21600},
    {"rest of the last part", [](Table& t, uint16_t v) { t.part[1].rest = v; }, 180, 2000},
    {"flood", [](Table& t, uint16_t v) { t.part[1].flood = v; }, 30, 3600},
    {"longest rest, from the longest cool rest on", [](Table& t, uint16_t v) { t.longestRest = v; }, 2000, 43200},
    {"minute of the first part", [](Table& t, uint16_t v) { t.part[0].from = v; }, 0, 899},
    {"minute of the last part", [](Table& t, uint16_t v) { t.part[1].from = v; }, 301, 1439},
    {"schema", [](Table& t, uint16_t v) { t.schema = static_cast<uint8_t>(v > 255 ? 255 : v); }, 1, 1},
};

static void ranges() {
  for (const Bound& bound : BOUNDS) {
    char title[120];
    std::snprintf(title, sizeof(title), "%s: %u to %u is taken, nothing else of 0 to 65,535", bound.what, bound.least,
                  bound.most);
    FACT(title) {
      for (unsigned value = 0; value <= 65535; ++value) {
        Table table = roomy();
        bound.set(table, static_cast<uint16_t>(value));
        CHECK(taken(table) == (value >= bound.least && value <= bound.most), "%u", value);
      }
    }
  }
  FACT("a flood as long as longest-on is taken, one second more is not") {
    Table table = roomy();
    CHECK(taken(table, 600), "600 s refused");
    CHECK(!taken(table, 599), "601 of 600 s taken");
  }
  FACT("1 to 8 parts are taken, 0 and 9 to 255 are not") {
    for (unsigned parts = 0; parts <= 255; ++parts) {
      Table table = roomy();
      for (uint8_t at = 0; at < 8; ++at) table.part[at] = {static_cast<uint16_t>(at * 100), 1000, 2000, 600};
      table.parts = static_cast<uint8_t>(parts);
      CHECK(isGood(table, static_cast<uint8_t>(6 + 8 * parts), 5400) == (parts >= 1 && parts <= 8), "%u parts", parts);
    }
  }
  FACT("only the right number of bytes of 0 to 255 is taken, for 1 to 8 parts") {
    for (uint8_t parts = 1; parts <= 8; ++parts) {
      Table table = roomy();
      for (uint8_t at = 0; at < 8; ++at) table.part[at] = {static_cast<uint16_t>(at * 100), 1000, 2000, 600};
      table.parts = parts;
      for (unsigned count = 0; count <= 255; ++count)
        CHECK(isGood(table, static_cast<uint8_t>(count), 5400) == (count == 6u + 8u * parts), "%u bytes", count);
    }
  }
  FACT("two parts of the same minute, or in the wrong order, are not taken") {
    Table table = roomy();
    table.part[1].from = 300;
    CHECK(!taken(table), "twice 300 taken");
    table.part[1].from = 299;
    CHECK(!taken(table), "300, 299 taken");
  }
}

static void parts() {
  const Table day = tableOf(20000, 480,
                            {{60, 6000, 6000, 300}, {420, 2400, 2400, 400}, {720, 1200, 1200, 500}, {1200, 3600, 3600, 600}});
  FACT("each of the 1,440 minutes has the last part that began, the night the last of the day before") {
    for (uint16_t minute = 0; minute < 1440; ++minute) {
      const Seconds due = minute < 60 ? 3600 : minute < 420 ? 6000 : minute < 720 ? 2400 : minute < 1200 ? 1200 : 3600;
      CHECK(partAt(day, minute).rest == due, "%u s at minute %u", partAt(day, minute).rest, minute);
    }
  }
  FACT("with no time of day the part with the shortest rest is in force") {
    CHECK(partAt(day, 0xFFFF).rest == 1200, "%u s", partAt(day, 0xFFFF).rest);
  }
}

int main() {
  ranges();
  parts();
}
