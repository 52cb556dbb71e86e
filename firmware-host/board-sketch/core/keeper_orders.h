// What a host or a person at the button may order. A host's orders bear the epoch of its own claim.
#pragma once
#include "keeper.h"

namespace keeper {

template <class Store>
Answer Keeper<Store>::claim(uint16_t epoch) {
  if (epoch != memory_.epoch) return {Result::Stale, memory_.epoch};
  own(Owner::Host, 1);
  return done(memory_.epoch);
}

template <class Store>
bool Keeper<Store>::heartbeat(uint16_t epoch, uint8_t lease, uint16_t minute, uint8_t second, uint8_t signals) {
  if (!owns(epoch) || lease < 2 || lease > times::LEASE_MAX) return false;
  life_.lease = lease;
  life_.hostSignals = signals;
  if (minute < MINUTES_A_DAY && second < 60) {
    memory_.minute = minute;
    memory_.second = second;
  }
  remember();
  return true;
}

// Done when nothing is in the way of an order that only the owner of the pump may give.
template <class Store>
Answer Keeper<Store>::refusal(uint16_t epoch) const {
  if (life_.setup == nullptr) return {Result::NotSetUp, 0};
  return {owns(epoch) ? Result::Done : Result::Stale, memory_.epoch};
}

template <class Store>
Answer Keeper<Store>::done(uint16_t value) {
  remember();
  return {Result::Done, value};
}

template <class Store>
Answer Keeper<Store>::pump(uint16_t epoch, uint8_t on, Seconds longest) {
  const Answer barred = refusal(epoch);
  if (barred.result != Result::Done) return barred;
  if (on == 0) {
    if (pumpOn()) stop(true);
    return done(0);
  }
  if (on != 1 || longest == 0) return {Result::BadValue, 0};
  if (memory_.holdLeft > 0) return {Result::Held, memory_.holdLeft};
  if (pumpOn()) {
    const Seconds left = static_cast<Seconds>(life_.setup->longestOn - memory_.onFor);
    // A sip stays a sip.
    const Seconds most = memory_.run == RunKind::Sip ? least(left, memory_.runLeft) : left;
    memory_.runLeft = least(longest, most);
    return done(memory_.runLeft);
  }
  if (memory_.age[OFF] <= life_.setup->shortestOff)
    return {Result::Resting, static_cast<uint16_t>(life_.setup->shortestOff + 1 - memory_.age[OFF])};
  if (tankForbids()) {
    const Seconds since = least(memory_.age[LOW], memory_.age[SIP]);
    if (since < times::SIP_REST_HOST)
      return {Result::TankLow, static_cast<uint16_t>(times::SIP_REST_HOST - since)};
    start(RunKind::Sip, least(longest, sipNow()), true);
  } else {
    start(RunKind::Flood, longest, true);
  }
  return done(memory_.runLeft);
}

template <class Store>
Answer Keeper<Store>::hold(uint16_t epoch, Seconds seconds, uint16_t presses) {
  const Answer barred = refusal(epoch);
  if (barred.result != Result::Done) return barred;
  if (seconds > times::HOLD_HOST_MAX) return {Result::BadValue, 0};
  // Whoever pressed the button has hands in the water: only a release by someone who knows of it ends that hold sooner.
  const bool sooner = seconds < memory_.holdLeft;
  if (sooner && (presses != memory_.presses || (seconds > 0 && memory_.holdByButton != 0)))
    return {Result::Held, memory_.holdLeft};
  // What the host says back of the button's own hold makes it no hold of the host's.
  const bool echo = memory_.holdByButton != 0 && memory_.holdLeft > 0 && seconds <= olderBy(memory_.holdLeft, times::HOLD_ECHO);
  if (seconds == 0) {
    // The buzzer warns whoever is at the bench before anything starts.
    if (memory_.holdLeft > times::HOLD_WARNING) {
      memory_.holdLeft = times::HOLD_WARNING;
      note(Kind::HoldEnded, 1, memory_.holdLeft);
    }
  } else if (!echo) {
    if (memory_.holdLeft == 0) note(Kind::HoldBegan, 0, seconds);
    memory_.holdLeft = seconds;
    memory_.holdByButton = 0;
    if (pumpOn()) stop(true);
  }
  return done(memory_.holdLeft);
}

template <class Store>
Answer Keeper<Store>::letGo(uint16_t epoch) {
  if (!owns(epoch)) return {Result::Stale, memory_.epoch};
  own(Owner::Keeper, 2);
  return done(memory_.epoch);
}

template <class Store>
Answer Keeper<Store>::putTable(uint16_t epoch, const Table& table, uint8_t count) {
  const Answer barred = refusal(epoch);
  if (barred.result != Result::Done) return barred;
  if (!isGood(table, count, life_.setup->longestOn)) return {Result::BadValue, 0};
  Slots<Store> slots(store_);
  if (!slots.holds(kept_, bytesOf(table), count)) {
    if (!slots.put(kept_, bytesOf(table), count)) return {Result::NotStored, kept_.seq};
    table_ = table;
    note(Kind::TableStored, kept_.slot, kept_.seq);
  }
  return done(kept_.seq);
}

template <class Store>
void Keeper<Store>::pressed(bool longPress) {
  if (life_.setup == nullptr) return;
  if (longPress) {
    ++memory_.presses;
    // Nobody stands there for hours and lets no flood through: such a button is wet, and the plug stops the pump.
    const bool wet = buttonWet();
    memory_.age[PRESS] = 0;
    if (wet) {
      note(Kind::Button, 1, memory_.holdLeft);
      return remember();
    }
    const bool renewed = memory_.holdLeft > 0;
    const bool spent = olderBy(memory_.holdFor, times::HOLD_BUTTON) > times::HOLD_BUTTON_TOTAL;
    const Seconds asked = spent ? times::HOLD_BUTTON_LEAST : times::HOLD_BUTTON;
    // A longer hold by the host is not cut short, and stays the host's.
    if (asked > memory_.holdLeft) {
      memory_.holdLeft = asked;
      memory_.holdByButton = 1;
    }
    life_.floodAsked = false;
    note(Kind::Button, 1, memory_.holdLeft);
    if (!renewed) note(Kind::HoldBegan, 1, memory_.holdLeft);
    // A host judges what was cut off under it.
    if (pumpOn()) stop(life_.owner == Owner::Host);
    judge();
    return remember();
  }
  note(Kind::Button, 0, 0);
  if (memory_.holdLeft == 0) {
    if (memory_.tank == Tank::Low && !life_.setup->hasEvidence()) memory_.handTest = times::HAND_TEST;
    if (life_.owner == Owner::Keeper && !pumpOn()) life_.floodAsked = true;
  }
  remember();
}

}  // namespace keeper
