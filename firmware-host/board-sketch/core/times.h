// Every span that the keeper goes by, in seconds, with its reason. A test may bring shorter ones.
#pragma once
#ifdef KEEPER_TIMES_HEADER
#include KEEPER_TIMES_HEADER
#else
#include "span.h"

namespace keeper {
namespace times {

// A host that is alive speaks each second; ten lets a slow one live and a dead one be noticed in time.
constexpr Seconds LEASE_MAX = 10;
// Contacts settle and the supply is steady before the first start. Judgement.
constexpr Seconds SETTLE = 15;
// A start after power-on that was followed by so much life was a good one.
constexpr Seconds PROVEN_LIFE = 300;
// As many settled starts are as long as PROVEN_LIFE.
constexpr uint8_t SETTLED_STARTS = 20;
// The keeper's own starts: two in this span. Judgement; starting windings and relay contacts.
constexpr Seconds STARTS_SPAN = 600;
// Water counts as back after so long without a break.
constexpr Seconds WATER_PROVES = 10;
constexpr Seconds RETRY_PAUSE = 120;
constexpr uint8_t RETRIES = 2;
// By then the channels of a stopped flood have drained and cannot pass for a tank that gives.
constexpr Seconds SIP_REST = 600;
// A host whose float went low a little sooner asks a little sooner.
constexpr Seconds SIP_REST_HOST = 570;
constexpr Seconds TRIAL_SIP = 180;
constexpr uint8_t TRIAL_EVERY = 3;
// A person has seen water in the tank: floods run for so long whatever the float says.
constexpr Seconds HAND_TEST = 7200;
constexpr Seconds HOLD_HOST_MAX = 14400;
constexpr Seconds HOLD_BUTTON = 1800;
// A wet button must not hold for ever: after so long without a flood in between it holds for the least time only.
constexpr Seconds HOLD_BUTTON_TOTAL = 7200;
constexpr Seconds HOLD_BUTTON_LEAST = 300;
// And after as long as a host may hold it is taken for wet, until nobody has pressed it for so long. Judgement.
constexpr Seconds HOLD_BUTTON_MOST = 14400;
constexpr Seconds BUTTON_DRY = 600;
constexpr Seconds HOLD_WARNING = 10;
// What a line and rounding add to a hold that a host has heard of.
constexpr Seconds HOLD_ECHO = 5;
// A host may rest so much longer than the longest rest of the table before the keeper takes the pump.
constexpr Seconds OVERDUE_GRACE = 60;
// A contact that is closed for so long after it was to open is welded; its read-back takes AGREE_QUICK.
constexpr Seconds WELDED = 5;
// Contacts must agree for so long: a bounce is over, a wave in the tank too.
constexpr uint8_t AGREE_QUICK = 2;
constexpr uint8_t AGREE_CALM = 10;

// What a table and a setup may ask for; the farm file has the same or narrower bounds.
constexpr Seconds REST_LEAST = 180;
constexpr Seconds REST_MOST = 21600;
constexpr Seconds LONGEST_REST_MOST = 43200;
constexpr Seconds FLOOD_LEAST = 30;
constexpr Seconds FLOOD_MOST = 3600;
constexpr Seconds RETURN_LAG_LEAST = 60;
constexpr Seconds RETURN_LAG_MOST = 1800;
constexpr Seconds LONGEST_ON_LEAST = 60;
constexpr Seconds LONGEST_ON_MOST = 5400;
constexpr Seconds SHORTEST_OFF_LEAST = 10;
constexpr Seconds SHORTEST_OFF_MOST = 600;

}  // namespace times
}  // namespace keeper
#endif
