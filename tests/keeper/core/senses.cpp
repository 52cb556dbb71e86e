// Contacts and pulses before they are believed: docs/board-protocol.md, "Evidence".
#include "bench.h"
#include "facts.h"

using namespace keeper;

int main() {
  FACT("a contact is unknown until it has agreed for 2 or 10 s, and then keeps its word until 2 or 10 s say otherwise") {
    for (const uint8_t seconds : {uint8_t{2}, uint8_t{10}})
      for (const bool first : {false, true}) {
        Agreeing contact;
        for (unsigned second = 1; second <= 60; ++second) {
          const Seen seen = contact.look(first, seconds);
          CHECK(seen == (second < seconds ? Seen::Unknown : first ? Seen::Yes : Seen::No), "%u of %u s", second, seconds);
        }
        for (unsigned second = 1; second <= 60; ++second) {
          const bool told = second >= seconds ? !first : first;
          CHECK(contact.look(!first, seconds) == (told ? Seen::Yes : Seen::No), "turned for %u of %u s", second, seconds);
        }
      }
  }
  FACT("a wave in the tank that turns the float each 1 to 9 s for a day changes nothing") {
    for (unsigned every = 1; every <= 9; ++every) {
      Agreeing contact;
      for (unsigned second = 0; second < 20; ++second) contact.look(false, 10);
      for (unsigned second = 0; second < 86400; ++second)
        CHECK(contact.look(second / every % 2 == 0, 10) == Seen::No, "believed at %u s, turning each %u s", second, every);
    }
  }
  FACT("a meter: water as soon as 15 s hold enough pulses, none when 15 s do not, unknown before, against sums made anew") {
    Chance chance(5);
    for (int trial = 0; trial < 300; ++trial) {
      PulseWindow window;
      const uint8_t enough = static_cast<uint8_t>(chance.between(1, 255));
      std::vector<unsigned> all;
      for (unsigned second = 0; second < 200; ++second) {
        all.push_back(chance.oneIn(3) ? 0u : chance.between(0, trial % 2 == 0 ? 255u : enough / 8u));
        unsigned sum = 0;
        for (size_t at = all.size() > 15 ? all.size() - 15 : 0; at < all.size(); ++at) sum += all[at];
        const Seen due = sum >= enough ? Seen::Yes : all.size() < 15 ? Seen::Unknown : Seen::No;
        CHECK(window.look(static_cast<uint8_t>(all.back()), enough) == due, "trial %d, second %u: %u pulses of %u", trial, second,
              sum, enough);
      }
    }
  }
}
