// The keeper's second: ages, tank, mains, hold and lease; and how it begins after a reset.
#pragma once
#include "keeper.h"

namespace keeper {

template <class Store>
void Keeper<Store>::begin(const Setup* setup, const Table& flashTable, uint8_t cause, bool memoryKept) {
  const bool known = memoryKept && memory_.check == checkOf(memory_);
  // What is still awaited of the last run is lost with the watch; that it ran is not.
  const bool awaited = known && setup != nullptr && life_.pending;
  life_ = Life{};
  kept_ = Kept{};
  slotSpoilt_ = false;
  watch_.begin();
  life_.setup = setup;
  if (!known) forget(memory_);
  if (awaited) settleVerdict(Verdict::Unproven);
  ++memory_.epoch;
  if (known) ++memory_.resets;
  memory_.cause = cause;
  // The uptime begins anew: what was before has a negative one.
  for (Entry& entry : log_.entry) entry.at = static_cast<int32_t>(static_cast<uint32_t>(entry.at) - memory_.uptime);
  memory_.uptime = 0;
  if (setup != nullptr) {
    Slots<Store> slots(store_);
    kept_ = slots.found(setup->longestOn, table_);
    slotSpoilt_ = slots.spoilt();
    if (kept_.slot == FLASH_SLOT) {
      table_ = flashTable;
      kept_.count = tableBytes(table_.parts);
    }
    // The reset has ended the run that was under way.
    if (pumpOn()) {
      const bool sip = memory_.run == RunKind::Sip;
      stop(false);
      if (life_.pending) settleVerdict(Verdict::CutShort);
      // Cut off in its first half it is owed.
      else if (!sip) memory_.retryIn = 1;
    }
  }
  settle_.begin(store_, memory_.unstarted != 0);
  note(Kind::Reset, cause, memory_.resets);
  remember();
}

template <class Store>
Entry& Keeper<Store>::note(Kind kind, uint8_t detail, uint16_t value) {
  Entry& entry = log_.at(memory_.logNext);
  entry.at = static_cast<int32_t>(memory_.uptime);
  entry.kind = kind;
  entry.detail = detail;
  entry.value = value;
  ++memory_.logNext;
  if (memory_.logKept < ENTRIES) ++memory_.logKept;
  return entry;
}

template <class Store>
void Keeper<Store>::age() {
  ++memory_.uptime;
  if (++life_.beat == 60) life_.beat = 0;
  if (memory_.minute != MINUTE_UNKNOWN && ++memory_.second >= 60) {
    memory_.second = 0;
    if (++memory_.minute == MINUTES_A_DAY) memory_.minute = 0;
  }
  if (pumpOn()) {
    grow(memory_.onFor);
    shrink(memory_.runLeft);
  }
  const bool restKnown = memory_.age[RESTED] != FOREVER;
  for (Seconds& age : memory_.age) grow(age);
  // A rest of 18 h is not an unknown one: the alarm for want of a flood goes on.
  if (restKnown && memory_.age[RESTED] == FOREVER) --memory_.age[RESTED];
  shrink(memory_.handTest);
  // One stands for "now"; nought for "none".
  if (memory_.retryIn > 1) --memory_.retryIn;
  if (memory_.holdLeft > 0) {
    if (memory_.holdByButton != 0) grow(memory_.holdFor);
    --memory_.holdLeft;
    if (memory_.holdLeft == 0) note(Kind::HoldEnded, 0, 0);
  }
  if (buttonWet() && memory_.age[PRESS] >= times::BUTTON_DRY) memory_.holdFor = 0;
  if (bothWet()) grow(life_.wetFor);
  else life_.wetFor = 0;
}

template <class Store>
void Keeper<Store>::tankRule() {
  const Tank before = memory_.tank;
  const bool low = life_.seen.so(FLOAT_LOW);
  const bool high = life_.seen.seen[FLOAT_LOW] == Seen::No;
  switch (before) {
    case Tank::Well:
    case Tank::Returning:
      if (!low) break;
      // What a person saw in the tank held for the water of then; a float that flaps does not end it.
      if (before == Tank::Well) memory_.handTest = 0;
      memory_.tank = Tank::Low;
      memory_.age[LOW] = 0;
      memory_.tried = 0;
      break;
    case Tank::Low: {
      // Water must have come because of the sip: a switch that is stuck at water says nothing of the tank. A pump may draw
      // current in air, so current speaks only where nothing else is fitted.
      const bool contradicted =
          life_.setup->seesReturn() ? watch_.proven() : pumpOn() && life_.seen.so(CURRENT);
      if (high) memory_.tank = Tank::Returning;
      else if (memory_.tried != 0 && contradicted) memory_.tank = Tank::Suspect;
      break;
    }
    case Tank::Suspect:
      if (high) memory_.tank = Tank::Returning;
      break;
  }
  if (memory_.tank != before) note(Kind::Tank, static_cast<uint8_t>(memory_.tank), 0);
}

template <class Store>
void Keeper<Store>::mainsRule() {
  const Seen mains = life_.seen.seen[MAINS];
  if (mains == Seen::No) {
    if (life_.mainsBefore != Seen::No) {
      life_.mainsLostFor = times::AGREE_CALM;
      note(Kind::Mains, 0, 0);
    }
    grow(life_.mainsLostFor);
  }
  if (mains == Seen::Yes && life_.mainsBefore == Seen::No) note(Kind::Mains, 1, life_.mainsLostFor);
  life_.mainsBefore = mains;
}

template <class Store>
void Keeper<Store>::second(const Evidence& seen) {
  if (life_.setup == nullptr) {
    ++memory_.uptime;
    remember();
    return;
  }
  life_.seen = seen;
  age();
  tankRule();
  mainsRule();
  watch_.second(*life_.setup, life_.seen, pumpOn());
  const bool ready = settle_.second(store_);
  // Not at the claim: a host that lets go and claims within a second must not begin anew.
  if (life_.owner == Owner::Keeper) life_.ownedFor = 0;
  if (life_.owner == Owner::Host) {
    grow(life_.ownedFor);
    --life_.lease;
    if (life_.lease == 0) own(Owner::Keeper, 0);
    else if (!pumpOn() && memory_.holdLeft == 0 && !sipsOnly() && overdue(least(memory_.age[RESTED], life_.ownedFor)))
      own(Owner::Keeper, 3);
  }
  if (pumpOn()) {
    const bool sip = memory_.run == RunKind::Sip;
    const bool forbidden = !sip && (tankForbids() || (bothWet() && life_.owner == Owner::Keeper));
    if (memory_.runLeft == 0 || memory_.onFor >= life_.setup->longestOn || forbidden) stop(false);
  }
  judge();
  if (ready && life_.owner == Owner::Keeper) decide();
  remember();
}

template <class Store>
Signals Keeper<Store>::signals() const {
  Signals signals = {false, false};
  if (life_.setup == nullptr) return signals;
  const uint8_t now = life_.beat;
  const bool tooDry = memory_.age[RESTED] != FOREVER && overdue(memory_.age[RESTED]);
  // Asked off for seconds, and the contact is closed still. One that rests closed is not looked at.
  const bool welded = !pumpOn() && !life_.setup->runsAtRest() && life_.seen.so(READ_BACK) && memory_.age[OFF] > times::WELDED;
  if (life_.owner == Owner::Host) {
    signals.buzzer = (life_.hostSignals & SIGNAL_BUZZER) != 0;
    signals.lamp = (life_.hostSignals & SIGNAL_LAMP) != 0;
  } else if (memory_.missed != 0 || mainsLost() || bothWet() || tooDry || welded) {
    signals.buzzer = now % 5 == 0;
    signals.lamp = true;
  } else if (memory_.tank == Tank::Low || memory_.tank == Tank::Suspect || life_.seen.so(LEAK) || life_.seen.so(OVERFLOW_)) {
    signals.buzzer = now % 30 == 0;
    signals.lamp = true;
  } else {
    // A board that never had a host keeps quiet for want of one.
    signals.buzzer = now == 0 && memory_.hadHost != 0;
    signals.lamp = (now & 1) == 0;
  }
  // A hold that was forgotten with the power warns too, hands may be in the water still; a host has not forgotten its own.
  const bool holdEnds = memory_.holdLeft > 0 && memory_.holdLeft <= times::HOLD_WARNING;
  if (holdEnds || (life_.owner == Owner::Keeper && settle_.nearlyOver())) signals.buzzer = true;
  return signals;
}

}  // namespace keeper
