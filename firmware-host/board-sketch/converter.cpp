#include "converter.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include "clock.h"
#include "pins.h"

namespace {
constexpr uint8_t PERIODS = 8;
constexpr uint16_t FULL = 1023;
// Half a period of 1 ms in counts of Timer0 at 250 kHz.
constexpr uint8_t HALF_PERIOD = 125;

volatile bool converted = false;
volatile bool halfOver = false;

void awaitBeat() {
  clock::sleepUntil(halfOver);
  halfOver = false;
}
}  // namespace

ISR(ADC_vect) { converted = true; }
ISR(TIMER0_COMPA_vect) { halfOver = true; }

namespace converter {

void begin() {
  // 125 kHz: ten bits need 50 to 200 kHz.
  ADCSRA = _BV(ADEN) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0);
}

uint16_t read(uint8_t channel) {
  ADMUX = static_cast<uint8_t>(_BV(REFS0) | (channel & 0x07));
  converted = false;
  ADCSRA |= _BV(ADIE) | _BV(ADSC);
  clock::sleepUntil(converted);
  ADCSRA = static_cast<uint8_t>(ADCSRA & ~_BV(ADIE));
  return ADC;
}

uint16_t readProbe(const keeper::Setup& setup) {
  const uint8_t first = setup.probePins[0];
  const uint8_t second = setup.probePins[1];
  uint16_t forth = 0;
  uint16_t back = 0;
  pins::drive(first, false);
  pins::drive(second, false);
  TCCR0A = _BV(WGM01);
  OCR0A = HALF_PERIOD - 1;
  TCNT0 = 0;
  TIFR0 = _BV(OCF0A);
  halfOver = false;
  TIMSK0 = _BV(OCIE0A);
  TCCR0B = _BV(CS01) | _BV(CS00);
  // Each half begins and ends at a beat of the timer, by the same steps in either direction: one that took longer would leave
  // a charge.
  pins::Output rises = pins::outputOf(first);
  pins::Output falls = pins::outputOf(second);
  for (uint8_t half = 0; half < 2 * PERIODS; ++half) {
    awaitBeat();
    falls.low();
    rises.high();
    const uint16_t counts = read(setup.probeChannel);
    if (half % 2 == 0) forth = static_cast<uint16_t>(forth + counts);
    else back = static_cast<uint16_t>(back + counts);
    const pins::Output fell = falls;
    falls = rises;
    rises = fell;
  }
  awaitBeat();
  falls.low();
  pins::floating(first);
  pins::floating(second);
  TCCR0B = 0;
  TIMSK0 = 0;
  // Forward the resistor lies on the side of the supply, backward on that of the ground.
  const uint16_t mean = static_cast<uint16_t>((FULL * PERIODS - forth + back) / (2 * PERIODS));
  return mean > FULL ? FULL : mean;
}

}  // namespace converter
