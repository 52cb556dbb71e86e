// Tells on demand what it sees and what has interrupted it.
#include <avr/interrupt.h>
#include "serial.h"

static volatile uint8_t changes, falls, rises;
ISR(PCINT2_vect) { ++changes; }
ISR(INT0_vect) { ++falls; }
ISR(INT1_vect) { ++rises; }

int main(void) {
  serial_begin();
  PORTD = _BV(2) | _BV(3) | _BV(4);
  PCMSK2 = _BV(4);
  PCICR = _BV(PCIE2);
  EICRA = _BV(ISC01) | _BV(ISC11) | _BV(ISC10);
  EIMSK = _BV(INT0) | _BV(INT1);
  ADMUX = _BV(REFS0) | 2;
  ADCSRA = _BV(ADEN) | 7;
  PCIFR = 7;
  EIFR = 3;
  sei();
  for (;;) switch (heard()) {
      case 'p':
        say(PIND & 0x1C);
        say(changes);
        say(falls);
        say(rises);
        break;
      case 'f': {
        // Bit 5 is an input without pull-up.
        uint8_t seen = 0;
        for (uint8_t i = 0; i < 64; ++i) seen |= PIND & _BV(5) ? 1 : 2;
        say(seen);
        break;
      }
      case 't':
        DDRB = _BV(3);
        PINB = _BV(3);
        PINB = _BV(3);
        PORTB |= _BV(4);
        PORTB &= ~_BV(4);
        DDRB |= _BV(4);
        PORTB |= _BV(4);
        DDRB = 0;
        break;
      case 'a':
        ADCSRA |= _BV(ADSC);
        while (ADCSRA & _BV(ADSC)) {
        }
        say(ADCL);
        say(ADCH);
        break;
    }
}
