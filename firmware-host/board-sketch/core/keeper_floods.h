// The keeper's floods: when one is due, how a run begins and ends, and what became of it.
#pragma once
#include "keeper.h"

namespace keeper {

template <class Store>
void Keeper<Store>::start(RunKind kind, Seconds longest, bool byHost) {
  // A verdict that was still awaited can no longer be told apart from this run; after a whole turn it stands as it is.
  bool again = false;
  if (life_.pending) {
    const bool turned = !byHost && memory_.age[RESTED] >= restNow();
    const bool stands = turned || watch_.proven();
    again = !byHost && !stands;
    settleVerdict(stands ? watch_.verdict() : Verdict::Unproven);
  }
  memory_.run = kind;
  memory_.runByHost = byHost ? 1 : 0;
  memory_.runLeft = least(longest, life_.setup->longestOn);
  memory_.onFor = 0;
  memory_.unstarted = 0;
  // Half of a flood, which may itself be halved.
  memory_.enough = kind == RunKind::Sip ? FOREVER : static_cast<Seconds>(floodNow() / 2);
  if (byHost) settle_.hostKnows();
  else settle_.started(store_);
  if (kind == RunKind::Sip) {
    memory_.age[SIP] = 0;
    memory_.tried = 1;
    ++memory_.sips;
  }
  if (!byHost) {
    memory_.age[START_BEFORE] = memory_.age[START];
    memory_.age[START] = 0;
  }
  // Else a button that asks for flood after flood would put off the verdict of a dead pump for ever.
  if (again) watch_.again();
  else watch_.begin();
}

template <class Store>
void Keeper<Store>::stop(bool byHost) {
  const Seconds ran = memory_.onFor;
  const bool sip = memory_.run == RunKind::Sip;
  const bool begunByHost = memory_.runByHost != 0;
  const bool counts = ran >= memory_.enough;
  memory_.run = RunKind::None;
  memory_.onFor = 0;
  memory_.runLeft = 0;
  memory_.age[OFF] = 0;
  if (counts) {
    memory_.age[RESTED] = 0;
    memory_.age[FLOOD] = ran;
    memory_.floodRan = ran;
    if (!buttonWet()) memory_.holdFor = 0;
    // Only now: what a hold or a low tank cuts off is still owed.
    memory_.retryIn = 0;
    memory_.catchUp = 0;
  }
  life_.pending = true;
  ended_.at = static_cast<int32_t>(memory_.uptime - ran);
  ended_.by = byHost ? uint8_t{0} : BY_KEEPER;
  if (begunByHost) ended_.by |= BEGUN_BY_HOST;
  ended_.ran = ran;
  ended_.counts = counts;
  if (sip) settleVerdict(Verdict::Sip);
  else if (byHost) settleVerdict(watch_.proven() ? Verdict::Confirmed : Verdict::ByHost);
  else if (!counts) settleVerdict(Verdict::CutShort);
}

// Of a run that ended by itself: told once nothing can change it.
template <class Store>
void Keeper<Store>::judge() {
  if (!life_.pending) return;
  if (!dark() && !watch_.decided(*life_.setup, table_.returnLag)) return;
  settleVerdict(watch_.verdict());
}

template <class Store>
void Keeper<Store>::settleVerdict(Verdict verdict) {
  life_.pending = false;
  note(Kind::Run, static_cast<uint8_t>(static_cast<uint8_t>(verdict) | ended_.by), ended_.ran).at = ended_.at;
  if (!ended_.counts) return;
  const bool missed =
      verdict == Verdict::Missed || (verdict != Verdict::Confirmed && dark());
  if (missed) {
    if (memory_.tank == Tank::Suspect) {
      memory_.tank = Tank::Low;
      memory_.age[LOW] = 0;
      memory_.tried = 0;
    }
    if (life_.owner == Owner::Host) return;
    memory_.missed = 1;
    if (dark()) {
      memory_.catchUp = 1;
    } else if (memory_.retries < times::RETRIES) {
      ++memory_.retries;
      memory_.retryIn = times::RETRY_PAUSE;
    }
    return;
  }
  if (verdict == Verdict::CutShort) return;
  if (memory_.tank == Tank::Returning) memory_.tank = Tank::Well;
  // Where water could tell, only water ends the alarm: neither a claim nor a press of the button.
  if (verdict == Verdict::Confirmed || (verdict == Verdict::Unproven && !life_.setup->hasEvidence())) memory_.missed = 0;
  memory_.retries = 0;
  memory_.catchUp = 0;
}

template <class Store>
void Keeper<Store>::own(Owner owner, uint8_t how) {
  life_.owner = owner;
  memory_.epoch = static_cast<uint16_t>(memory_.epoch + 1);
  life_.floodAsked = false;
  note(Kind::Owner, how, 0);
  if (owner == Owner::Host) {
    life_.lease = static_cast<uint8_t>(times::LEASE_MAX);
    life_.hostSignals = 0;
    memory_.hadHost = 1;
    if (life_.pending) settleVerdict(watch_.proven() ? Verdict::Confirmed : Verdict::Unproven);
    return;
  }
  life_.lease = 0;
  // A flood of the host goes on, as long as the table's.
  if (memory_.run == RunKind::Flood) {
    const Seconds flood = floodNow();
    memory_.runLeft = memory_.onFor >= flood ? Seconds{0}
                                             : least(memory_.runLeft, static_cast<Seconds>(flood - memory_.onFor));
  }
}

template <class Store>
void Keeper<Store>::decide() {
  if (pumpOn() || memory_.holdLeft > 0 || memory_.age[OFF] <= life_.setup->shortestOff ||
      memory_.age[START_BEFORE] < times::STARTS_SPAN) return;
  if (sipsOnly()) {
    life_.floodAsked = false;
    const Seconds since = tankForbids() ? memory_.age[LOW] : life_.wetFor;
    if (since >= times::SIP_REST && memory_.age[SIP] >= times::SIP_REST) start(RunKind::Sip, sipNow(), false);
    return;
  }
  const bool wanted = life_.floodAsked || memory_.age[RESTED] >= restNow() || memory_.retryIn == 1 ||
                      (memory_.catchUp != 0 && life_.seen.so(MAINS));
  if (!wanted) return;
  life_.floodAsked = false;
  start(RunKind::Flood, floodNow(), false);
}

template <class Store>
Seconds Keeper<Store>::untilFlood() const {
  if (life_.setup == nullptr || pumpOn() || sipsOnly()) return FOREVER;
  const Seconds rest = restNow();
  Seconds wait = memory_.age[RESTED] >= rest ? Seconds{0} : static_cast<Seconds>(rest - memory_.age[RESTED]);
  if (memory_.retryIn > 0 && memory_.retryIn < wait) wait = memory_.retryIn;
  return wait < memory_.holdLeft ? memory_.holdLeft : wait;
}

}  // namespace keeper
