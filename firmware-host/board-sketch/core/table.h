// The table of floods that the keeper runs by. Layout and ranges: docs/board-protocol.md, "Table".
#pragma once
#include "bytes.h"
#include "times.h"

namespace keeper {

constexpr uint8_t PARTS_MAX = 8;
constexpr uint8_t TABLE_HEAD = 6;
constexpr uint16_t MINUTES_A_DAY = 1440;
constexpr uint16_t MINUTE_UNKNOWN = 0xFFFF;

struct AS_ON_THE_WIRE Part {
  uint16_t from;
  Seconds rest;
  Seconds coolRest;
  Seconds flood;
};

struct AS_ON_THE_WIRE Table {
  uint8_t schema;
  uint8_t parts;
  Seconds longestRest;
  Seconds returnLag;
  Part part[PARTS_MAX];
};

constexpr uint8_t TABLE_BYTES_MAX = TABLE_HEAD + PARTS_MAX * sizeof(Part);
static_assert(sizeof(Table) == TABLE_BYTES_MAX, "as on the wire");

inline uint8_t tableBytes(uint8_t parts) { return static_cast<uint8_t>(TABLE_HEAD + parts * sizeof(Part)); }

// Whether a table of so many bytes may be run by.
CALLED inline bool isGood(const Table& table, uint8_t count, Seconds longestOn) {
  const auto within = [](uint16_t value, uint16_t low, uint16_t high) { return value >= low && value <= high; };
  if (count < TABLE_HEAD || table.schema != 1 || !within(table.parts, 1, PARTS_MAX)) return false;
  if (count != tableBytes(table.parts)) return false;
  if (table.longestRest > times::LONGEST_REST_MOST ||
      !within(table.returnLag, times::RETURN_LAG_LEAST, times::RETURN_LAG_MOST)) return false;
  uint16_t earliest = 0;
  for (uint8_t at = 0; at < table.parts; ++at) {
    const Part& part = table.part[at];
    if (!within(part.from, earliest, MINUTES_A_DAY - 1)) return false;
    if (!within(part.rest, times::REST_LEAST, part.coolRest)) return false;
    if (part.coolRest > times::REST_MOST || part.coolRest > table.longestRest) return false;
    if (!within(part.flood, times::FLOOD_LEAST, times::FLOOD_MOST) || part.flood > longestOn) return false;
    earliest = static_cast<uint16_t>(part.from + 1);
  }
  return true;
}

// The part in force at a minute of the day; with no time of day the one with the shortest rest.
CALLED inline const Part& partAt(const Table& table, uint16_t minute) {
  const Part* found = &table.part[minute == MINUTE_UNKNOWN ? 0 : table.parts - 1];
  for (uint8_t at = 0; at < table.parts; ++at) {
    const Part& part = table.part[at];
    if (minute == MINUTE_UNKNOWN ? part.rest < found->rest : part.from <= minute) found = &part;
  }
  return *found;
}

}  // namespace keeper
