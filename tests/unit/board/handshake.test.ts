import { describe, expect, it } from 'vitest';
import { answerTo, BOOT_MILLIS, bytesOf, messagesIn, onDesk, started } from './desk.ts';

/** Modes and resolutions in the order input, pull-up, output, then analog or PWM; 7F ends a pin. */
const RESERVED = '7F';
const DIGITAL = '00 01 0B 01 01 01 7F';
const PWM = '00 01 0B 01 01 01 03 08 7F';
const ANALOG = '00 01 0B 01 01 01 02 0A 7F';
const CAPABILITIES = [
  ...[RESERVED, RESERVED, DIGITAL, PWM, DIGITAL, PWM, PWM, DIGITAL],
  ...[DIGITAL, PWM, PWM, PWM, DIGITAL, DIGITAL],
  ...Array<string>(6).fill(ANALOG),
].join(' ');
const MAPPING = `${Array<string>(14).fill('7F').join(' ')} 00 01 02 03 04 05`;

const VERSION = 'F9 02 08';
const FIRMWARE = 'F0 79 03 04 41 00 62 00 F7';

describe('the handshake as firmata-io 2.3.0 makes it', () => {
  it('says version and firmware unasked when it has started', () => {
    const { peer } = onDesk();
    peer.open(0);
    peer.advance(BOOT_MILLIS);
    expect(messagesIn(peer.take())).toEqual([VERSION, FIRMWARE]);
  });

  it.each([
    ['version', 'F9', [VERSION]],
    ['firmware', 'F0 79 F7', [FIRMWARE]],
    ['capabilities', 'F0 6B F7', [`F0 6C ${CAPABILITIES} F7`]],
    ['analog mapping', 'F0 69 F7', [`F0 6A ${MAPPING} F7`]],
    ['version and firmware asked in one go', 'F9 F0 79 F7', [VERSION, FIRMWARE]],
  ])('answers a query for %s', (_, query, answers) => {
    expect(answerTo(started(), query)).toEqual(answers);
  });

  it('runs from the queries to a relay on pin 8, a switch on pin 7 and a probe on A1', () => {
    const desk = started();
    desk.analog.set(1, 512);
    expect(answerTo(desk, 'F9')).toEqual([VERSION]);
    expect(answerTo(desk, 'F0 79 F7')).toEqual([FIRMWARE]);
    expect(answerTo(desk, 'F0 6B F7')).toHaveLength(1);
    expect(answerTo(desk, 'F0 69 F7')).toHaveLength(1);
    // Pin 7 with pull-up, reports of port 0: open switch reads 1.
    expect(answerTo(desk, 'F4 07 0B D0 01')).toEqual(['90 00 01']);
    // A1 is pin 15: setting the mode tells the value at once, and so does asking for reports.
    expect(answerTo(desk, 'F4 0F 02 C1 01')).toEqual(['E1 00 04', 'E1 00 04']);
    expect(answerTo(desk, 'F4 08 01 91 01 00')).toEqual([]);
    expect(desk.levelOf(8)).toBe(1);
    desk.digital.set(7, 0);
    desk.peer.advance(BOOT_MILLIS + 19);
    expect(messagesIn(desk.peer.take())).toEqual(['90 00 00', 'E1 00 04']);
  });

  it('names another protocol version when set up so', () => {
    expect(answerTo(started({ protocolVersion: { major: 2, minor: 5 } }), 'F9')).toEqual(['F9 02 05']);
  });

  it('hears nothing of a handshake that comes before it has started', () => {
    const { peer } = onDesk();
    peer.open(0);
    peer.receive(bytesOf('F9 F0 79 F7'), BOOT_MILLIS - 1);
    expect(peer.take()).toHaveLength(0);
    expect(peer.tally().unheardBytes).toBe(4);
  });
});
