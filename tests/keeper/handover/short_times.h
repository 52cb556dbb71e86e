// The keeper's spans made short, so that every interleaving can be looked at. Each stands to the others as in times.h: what is
// longer there is longer here.
#pragma once
#include "span.h"

namespace keeper {
namespace times {

// A heartbeat may be missed and the lease still be there: the shortest in which all of renewed, running and over are seen.
constexpr Seconds LEASE_MAX = 3;
// One look at the contacts.
constexpr Seconds SETTLE = 1;
// Longer than settling, shorter than a rest.
constexpr Seconds PROVEN_LIFE = 4;
// Two settled starts with their second each take less than PROVEN_LIFE.
constexpr uint8_t SETTLED_STARTS = 2;
// Longer than a flood that was cut off and made again at once, so that the third start is held back.
#ifdef SHORT_STARTS_SPAN
constexpr Seconds STARTS_SPAN = SHORT_STARTS_SPAN;
#else
constexpr Seconds STARTS_SPAN = 6;
#endif
constexpr Seconds WATER_PROVES = 1;
constexpr Seconds RETRY_PAUSE = 2;
constexpr uint8_t RETRIES = 2;
// Longer than a rest after a whole flood is not needed: what matters is that a host may sip a little sooner.
constexpr Seconds SIP_REST = 3;
constexpr Seconds SIP_REST_HOST = 2;
constexpr Seconds TRIAL_SIP = 2;
constexpr uint8_t TRIAL_EVERY = 3;
constexpr Seconds HAND_TEST = 4;
constexpr Seconds HOLD_HOST_MAX = 3;
constexpr Seconds HOLD_BUTTON = 3;
// Two holds of the button, as four there.
constexpr Seconds HOLD_BUTTON_TOTAL = 6;
constexpr Seconds HOLD_BUTTON_LEAST = 2;
constexpr Seconds HOLD_BUTTON_MOST = 9;
constexpr Seconds BUTTON_DRY = 3;
constexpr Seconds HOLD_WARNING = 1;
constexpr Seconds HOLD_ECHO = 1;
constexpr Seconds OVERDUE_GRACE = 1;
constexpr Seconds WELDED = 2;
constexpr uint8_t AGREE_QUICK = 1;
constexpr uint8_t AGREE_CALM = 1;

constexpr Seconds REST_LEAST = 1;
constexpr Seconds REST_MOST = 60;
constexpr Seconds LONGEST_REST_MOST = 60;
constexpr Seconds FLOOD_LEAST = 1;
constexpr Seconds FLOOD_MOST = 60;
constexpr Seconds RETURN_LAG_LEAST = 1;
constexpr Seconds RETURN_LAG_MOST = 60;
constexpr Seconds LONGEST_ON_LEAST = 1;
constexpr Seconds LONGEST_ON_MOST = 60;
constexpr Seconds SHORTEST_OFF_LEAST = 1;
constexpr Seconds SHORTEST_OFF_MOST = 60;

}  // namespace times
}  // namespace keeper
