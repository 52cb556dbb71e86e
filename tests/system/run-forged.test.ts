import { expect, it, onTestFinished } from 'vitest';
import { ended, freePort, listening, startBroker } from '../support/mosquitto.ts';
import { deskBoard, onPty } from './pty-board.ts';
import { linesOf, ownFolder, realFarmText, rillkeeper, startedLong, written } from './rillkeeper.ts';
import { textingModem, type Text } from './texting-modem.ts';

/** Fault 63 on the real process: the ways in from outside are a text to the modem and what peers say; neither moves the pump. */
const SECONDS = 1000;
const RELAY = 7;
const LISTED = '+447700900123';
const TOPIC = 'farms/forged';

/** Numbers and names that are not Ana's, though some look like it. */
const STRANGERS = ['+447700900999', '+99447700900123', '99447700900123', '+7700900123', '0900123', 'Ana', ''];
const ORDERS = ['stop', 'STOP!', 'hold 60', 'pump off', 'flood', 'flood now', 'ok stop'];

const texts = (froms: readonly string[], bodies: readonly string[]): readonly Text[] =>
  froms.flatMap((from) => bodies.map((body) => ({ from, body })));

interface Row {
  readonly kind: string;
  readonly who?: string | null;
  readonly meant?: string;
  readonly lastDigits?: string | null;
}
const bookOf = async (file: string): Promise<readonly Row[]> =>
  linesOf((await rillkeeper('book', file, '--json')).stdout).map((line) => JSON.parse(line) as Row);
const ofKind = (book: readonly Row[], kind: string): readonly Row[] =>
  book.filter((row) => row.kind === kind);

it('texts from 7 strangers, 7 orders from a listed number and 6 messages at the broker neither start nor stop the pump, nor silence an alarm', async () => {
  const [modem, port] = await Promise.all([textingModem(), freePort()]);
  const broker = await startBroker(port, 'log_type all');
  let log = '';
  broker.stderr?.on('data', (piece: Buffer) => (log += piece.toString()));
  // One whom the broker lets in, and whom it remembers for whoever comes later.
  const { client: guest, seen } = await listening(port);
  const words = ['hold', 'stop', 'command', 'set', 'status', 'call'];
  const forged = (): Promise<unknown> =>
    Promise.all(
      words.map((word) => guest.publishAsync(`${TOPIC}/${word}`, 'stop', { qos: 1, retain: true })),
    );
  await forged();
  const desk = deskBoard();
  // The tank float, a contact that opens when the tank is low, is closed.
  desk.digital.set(4, 0);
  const board = await onPty(desk.peer);
  onTestFinished(async () => {
    await Promise.all([guest.endAsync(true), modem.close(), board.unplug()]);
    await ended(broker);
  });
  const text = realFarmText('Forged').replace('shortestOffSeconds: 30', 'shortestOffSeconds: 10');
  const file = written(
    ownFolder(),
    'farm.yaml',
    `${text}herald:
  people: [{ name: Ana, phone: '${LISTED}' }]
  modem: { port: ${modem.port} }
  broker: { url: 'mqtt://127.0.0.1:${port}', topic: ${TOPIC} }
`,
  );
  const running = startedLong('run', file, '--board', board.path);
  await expect.poll(() => desk.levels.get(RELAY), { timeout: 20 * SECONDS }).toBe(1);
  const isTold = (): boolean =>
    seen.some(({ topic, text: told }) => topic === `${TOPIC}/status` && told.includes('running'));
  await expect.poll(isTold, { timeout: 20 * SECONDS }).toBe(true);

  // In a flood: nothing of it ends the flood.
  const before = desk.history(RELAY).length;
  const first = [...texts([LISTED], ORDERS), ...texts(STRANGERS, ['stop'])];
  first.forEach(modem.comes);
  await forged();
  const came = async (): Promise<number> => ofKind(await bookOf(file), 'text-came').length;
  await expect.poll(came, { timeout: 30 * SECONDS }).toBe(first.length);
  expect(desk.history(RELAY).slice(before)).toEqual([]);

  // With an alarm, as the tank is low: nothing of it silences that, or starts the pump.
  desk.digital.set(4, 1);
  await running.said('ALARM');
  await expect.poll(() => desk.levels.get(RELAY), { timeout: 20 * SECONDS }).toBe(0);
  const then = desk.history(RELAY).length;
  const second = texts(STRANGERS, ['ok', '?', 'flood']);
  second.forEach(modem.comes);
  await forged();
  await expect.poll(came, { timeout: 30 * SECONDS }).toBe(first.length + second.length);
  expect(desk.history(RELAY).slice(then)).toEqual([]);
  const silent = await bookOf(file);
  expect([...ofKind(silent, 'order'), ...ofKind(silent, 'alarm-acknowledged')]).toEqual([]);

  // The same words from the listed number are heard, also where the network writes 00 for its +.
  modem.comes({ from: LISTED.replace('+', '00'), body: 'ok' });
  const acknowledged = async (): Promise<number> => ofKind(await bookOf(file), 'alarm-acknowledged').length;
  await expect.poll(acknowledged, { timeout: 20 * SECONDS }).toBeGreaterThan(0);

  running.child.kill('SIGTERM');
  expect((await running.ended).code).toBe(0);
  const book = await bookOf(file);
  const told = ofKind(book, 'text-came');
  const own = told.filter(({ who }) => who === 'Ana').map(({ meant }) => meant);
  expect(own).toEqual([...ORDERS.map(() => 'something-else'), 'acknowledge']);
  expect(told.filter(({ who }) => who === null)).toHaveLength(STRANGERS.length * 4);
  expect(ofKind(book, 'order')).toEqual([]);
  // Strangers get no answer, their words are kept nowhere, and every text is gone from the card.
  expect(new Set(modem.sentTo())).toEqual(new Set([LISTED]));
  expect(JSON.stringify(book)).not.toContain('hold 60');
  expect(modem.kept()).toBe(0);
  // The broker tells of every subscription: the guest's is there, and none of the host's.
  const subscribed = log.split('\n').filter((line) => line.includes('Received SUBSCRIBE'));
  expect(log).toMatch(/Received PUBLISH from rillkeeper-/);
  expect(subscribed.length).toBeGreaterThan(0);
  expect(subscribed.filter((line) => line.includes('rillkeeper-'))).toEqual([]);
}, 110_000);
