// Tank, channels and contacts as they truly are, for the board's senses: what is asked of the pump is not what is seen.
#pragma once
#include "bench.h"

struct Plant {
  // What the contact says, whatever is so: stuck when not Honest.
  enum class Contact : uint8_t { Honest, StuckYes, StuckNo };

  bool tankHasWater = true;
  bool pumpWorks = true;
  bool mainsThere = true;
  Contact floatContact = Contact::Honest;
  Contact waterContact = Contact::Honest;
  bool hasFloat = false;
  bool hasWater = false;
  bool hasCurrent = false;
  bool hasMains = false;
  // Seconds of pumping until water is at the return; it runs on for as long after a stop.
  uint32_t lag = 90;

  uint32_t filled = 0;
  // Seconds in which water went to the channels, ever.
  uint32_t wetted = 0;
  keeper::Agreeing floatSeen, waterSeen, currentSeen, mainsSeen;

  static bool told(Contact contact, bool so) {
    return contact == Contact::Honest ? so : contact == Contact::StuckYes;
  }
  // One second of the plant, then of the board. Contacts must agree for 2 s, float and mains for 10 s.
  void second(Bench& bench) {
    const bool turns = bench.on && pumpWorks && mainsThere;
    const bool flows = turns && tankHasWater;
    if (flows) ++wetted;
    if (flows) filled += filled < 2 * lag ? 1 : 0;
    else filled -= filled > 0 ? 1 : 0;
    if (hasFloat) bench.seen.seen[keeper::FLOAT_LOW] = floatSeen.look(told(floatContact, !tankHasWater), 10);
    if (hasWater) bench.seen.seen[keeper::WATER] = waterSeen.look(told(waterContact, filled >= lag), 2);
    if (hasCurrent) bench.seen.seen[keeper::CURRENT] = currentSeen.look(turns, 2);
    if (hasMains) bench.seen.seen[keeper::MAINS] = mainsSeen.look(mainsThere, 10);
    bench.second();
  }
  void pass(Bench& bench, uint32_t seconds) {
    while (seconds-- > 0) second(bench);
  }
  bool passUntil(Bench& bench, bool running, uint32_t most) {
    while (bench.on != running && most-- > 0) second(bench);
    return bench.on == running;
  }
};

inline keeper::Setup fitted(bool water, bool current, keeper::Seconds shortestOff = 30) {
  keeper::Setup setup = bareSetup(1800, shortestOff);
  setup.floatLow = {5, 0};
  if (water) {
    setup.returnKind = keeper::Fitted::Contact;
    setup.water = {2, 0};
  }
  if (current) {
    setup.currentKind = keeper::Fitted::Contact;
    setup.current = {3, 0};
  }
  return setup;
}

// A plant with water whose float has stuck at low; it has been so for so long.
inline void stuckLow(Plant& plant, bool water, bool current) {
  plant.hasFloat = true;
  plant.hasWater = water;
  plant.hasCurrent = current;
  plant.floatContact = Plant::Contact::StuckYes;
}
