import { assert } from '../../../src/units/assertion.ts';
import { createReceiveBuffer } from './receive-buffer.ts';
import type { Machine } from './machine.ts';
import { IO, VECTOR } from './registers.ts';

/** The line as it goes to the chip: it waits for nobody. */
export interface Line {
  /** The next byte that the host wants to send, `null` when there is none; asked for at its start bit. */
  readonly next: () => number | null;
  /** Cycles of the chip that a byte of the host takes. */
  readonly byteCycles: number;
  readonly heard: (byte: number, atCycle: number) => void;
  /** The byte came while the receiver was off. */
  readonly missed: () => void;
  /** A byte has left, with its stop bit. */
  readonly sent: (byte: number, atCycle: number) => void;
}

export interface Usart {
  /** The line has something to send again. */
  readonly wake: () => void;
  /** The chip resets or loses its power: the byte on its way in is lost. */
  readonly abandon: () => void;
  /** Nothing on the wire, either way. */
  readonly quiet: () => boolean;
  readonly overruns: () => number;
  /** Cycles of a byte that the chip sends, by its registers. */
  readonly byteCycles: () => number;
}

const STATUS = { received: 0x80, sent: 0x40, empty: 0x20, frameError: 0x10, overrun: 0x08 } as const;
const DOUBLE_RATE = 0x02;
const KEPT_STATUS = 0x03;
const CONTROL = { onReceived: 0x80, onSent: 0x40, onEmpty: 0x20, receives: 0x10, sends: 0x08 } as const;
const NINE_BITS = 0x04;
/** Of UCSR0C after a reset: 8 data bits, no parity, one stop bit; nothing else is emulated. */
const EIGHT_N_ONE = 0x06;
const FRAME_BITS = 10;
/** Farther apart, and the last bits of a byte are read wrong (data sheet, "Asynchronous Operational Range"; the figure is from memory). */
const RATES_APART_MOST = 0.04;

/**
 * USART0 (data sheet, "USART0"). To the host: a shift register and one byte behind it. From the host: bytes come
 * at the pace of the host, two wait to be read, a third in the shift register until the next start bit. The
 * order in which the status and control registers are written makes no difference.
 */
export const createUsart = (machine: Machine, line: Line): Usart => {
  const { cpu, events, interrupts, get, put, onRead, onWrite } = machine;
  const buffer = createReceiveBuffer();
  let shifting: number | null = null;
  let waiting: number | null = null;
  let coming: number | null = null;
  /** End of the byte that comes, with the fraction of a cycle, so that many bytes keep the pace of the line. */
  let comesAt = 0;
  let lastRead = 0;

  put(IO.UCSR0A, STATUS.empty);
  put(IO.UCSR0C, EIGHT_N_ONE);
  const isOn = (bit: number): boolean => (get(IO.UCSR0B) & bit) !== 0;
  const status = (bit: number, up: boolean): void => {
    put(IO.UCSR0A, up ? get(IO.UCSR0A) | bit : get(IO.UCSR0A) & ~bit);
  };
  const raise = (): void => {
    const up = get(IO.UCSR0A);
    interrupts.put(VECTOR.USART_RX, isOn(CONTROL.onReceived) && (up & STATUS.received) !== 0);
    interrupts.put(VECTOR.USART_UDRE, isOn(CONTROL.onEmpty) && (up & STATUS.empty) !== 0);
    interrupts.put(VECTOR.USART_TX, isOn(CONTROL.onSent) && (up & STATUS.sent) !== 0);
  };
  const showFirst = (): void => {
    const first = buffer.first();
    status(STATUS.received, first !== null);
    status(STATUS.frameError, first?.spoilt === true);
    status(STATUS.overrun, first?.afterLoss === true);
    raise();
  };
  const byteCycles = (): number => {
    const divider = ((get(IO.UBRR0H) & 0x0f) << 8) | get(IO.UBRR0L);
    return FRAME_BITS * (divider + 1) * ((get(IO.UCSR0A) & DOUBLE_RATE) === 0 ? 16 : 8);
  };

  const sendAlarm = events.alarm((dueAt) => {
    assert(shifting !== null, 'a byte that is sent was there');
    line.sent(shifting, dueAt);
    shifting = waiting;
    waiting = null;
    if (shifting !== null) sendAlarm.set(dueAt + byteCycles());
    status(STATUS.empty, true);
    status(STATUS.sent, shifting === null);
    raise();
  });
  const begin = (from: number): void => {
    coming = line.next();
    if (coming === null) return;
    buffer.startBit();
    comesAt = from + line.byteCycles;
    receiveAlarm.set(Math.ceil(comesAt));
  };
  const receiveAlarm = events.alarm((dueAt) => {
    assert(coming !== null, 'a byte that comes was sent');
    if (isOn(CONTROL.receives)) {
      const apart = Math.abs(byteCycles() / line.byteCycles - 1);
      const spoilt = apart > RATES_APART_MOST;
      buffer.put({ byte: spoilt ? ~coming & 0xff : coming, spoilt });
      line.heard(coming, dueAt);
      showFirst();
    } else line.missed();
    begin(comesAt);
  });

  onWrite(IO.UCSR0A, (value, mask) => {
    const sentFlag = get(IO.UCSR0A) & STATUS.sent & ~(value & mask);
    const readOnly = get(IO.UCSR0A) & ~(KEPT_STATUS | STATUS.sent);
    put(IO.UCSR0A, readOnly | sentFlag | (value & KEPT_STATUS));
    raise();
  });
  onWrite(IO.UCSR0B, (value) => {
    assert((value & NINE_BITS) === 0, 'not emulated: bytes of nine bits');
    put(IO.UCSR0B, value);
    if (!isOn(CONTROL.receives)) buffer.flush();
    showFirst();
  });
  onWrite(IO.UCSR0C, (value) => {
    // Two stop bits are told apart by a sender only, and no host needs them.
    assert(value === EIGHT_N_ONE, `not emulated: frames by UCSR0C = ${value}`);
    put(IO.UCSR0C, value);
  });
  onRead(IO.UDR0, () => {
    lastRead = buffer.take() ?? lastRead;
    showFirst();
    return lastRead;
  });
  onWrite(IO.UDR0, (value) => {
    // What is written while the buffer is full, or nobody sends, is ignored.
    if (!isOn(CONTROL.sends) || (get(IO.UCSR0A) & STATUS.empty) === 0) return;
    if (shifting === null) {
      shifting = value;
      sendAlarm.set(cpu.cycles + byteCycles());
    } else {
      waiting = value;
      status(STATUS.empty, false);
    }
    raise();
  });
  interrupts.onTaken(VECTOR.USART_TX, () => {
    status(STATUS.sent, false);
    raise();
  });

  return {
    wake: () => {
      if (coming === null) begin(cpu.cycles);
    },
    abandon: () => {
      if (coming !== null) line.missed();
    },
    quiet: () => coming === null && shifting === null,
    overruns: buffer.overruns,
    byteCycles,
  };
};
