import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { LANGUAGES } from '../../../../src/alarm/language/languages.ts';
import { HOST_REASONS } from '../../../../src/alarm/language/reasons/host-reasons.ts';
import { reasonOf, reasonText } from '../../../../src/alarm/reason.ts';
import {
  FLASH_AGAIN,
  setupDifferences,
  setupWhy,
} from '../../../../firmware-host/devices/keeper/setup-compare.ts';
import { errorWords } from '../../../../firmware-host/herald/gsm/gsm-words.ts';
import { networkWords } from '../../../../firmware-host/herald/network-words.ts';
import { ownPhrases, type OwnPhrase } from '../../../support/own-phrases.ts';

const sourcesIn = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${folder}/${name}`);

/** Everything that says why a port, a board, a channel, the journal or a sensor does not do its work. */
const SOURCES = [
  ...sourcesIn('firmware-host/herald'),
  ...sourcesIn('firmware-host/devices'),
  ...['book-check', 'book-file', 'book-keeper', 'row-check', 'thread-disk'].map(
    (name) => `firmware-host/storage/journal/${name}.ts`,
  ),
  'firmware-host/start/starts.ts',
  ...['host-health', 'tell', 'air'].map((name) => `src/controller/${name}.ts`),
  'src/command/interlock.ts',
  'src/sense/senses.ts',
  ...['channel-health', 'delivery', 'delivery-settle'].map((name) => `src/delivery/${name}.ts`),
];

/** Files whose phrases go elsewhere. */
const NOT_TOLD: Readonly<Record<string, string>> = {
  'firmware-host/herald/secrets.ts': 'told on the terminal',
  'firmware-host/herald/herald-worker.ts': 'an assertion',
  'firmware-host/devices/keeper/dialogue.ts': 'told on the terminal',
  'firmware-host/devices/candidate-order.ts': 'told by board list',
  'firmware-host/devices/usb-port.ts': 'told on the terminal',
  'firmware-host/devices/keeper/keeper-words.ts': 'told by status and board look',
  'firmware-host/devices/keeper/table-check.ts': 'told by status and board look',
  'firmware-host/devices/keeper/setup-compare.ts': 'held against its functions below',
  'firmware-host/devices/keeper/setup-fields.ts': 'parts of what setup-compare.ts says',
};
/** Phrases that no alarm carries, and parts of those that it does. */
const NOT_REASONS: readonly string[] = [
  'webhook {}', // a name
  'no device manager to ask about it', // board list
  ...['auto_vacuum = INCREMENTAL', 'journal_mode = WAL', 'synchronous = FULL', 'journal_size_limit = {}'],
  '{} {} does not fit its check sum', // of "entry" or "reading"
  ...['the tank float reads low but is contradicted', 'the tank float has just let go'], // floods go on
  ...['the air thermometer', 'the water thermometer', 'the humidity sensor'],
  ...['{} has not spoken', '{} reads out of range: open or shorted'], // of the air alone
  ...['no level sensor has spoken', 'the level sensor reads nonsense'], // then the float is asked
  'no channel leads to anybody', // the journal
  ...['its time is over', 'too much else waits'], // the journal
];

const FILLINGS = ['7', 'x y', FLASH_AGAIN] as const;
const filled = (parts: readonly string[], choice: number): string =>
  parts
    .map((part, place) =>
      place === 0 ? part : `${FILLINGS[Math.floor(choice / 3 ** (place - 1)) % 3] ?? ''}${part}`,
    )
    .join('');
const isKnown = ({ parts }: OwnPhrase): boolean =>
  Array.from({ length: 3 ** (parts.length - 1) }, (_, choice) => filled(parts, choice)).some(
    (says) => reasonOf(says).kind === 'named',
  );

const told = (phrase: OwnPhrase): string => phrase.parts.join('{}');

describe('a reason of this program', () => {
  const phrases = SOURCES.filter((file) => !Object.hasOwn(NOT_TOLD, file)).flatMap(ownPhrases);

  it('has a sentence in four languages, wherever it is written', () => {
    expect(phrases.length).toBeGreaterThan(100);
    const without = phrases.filter((phrase) => !NOT_REASONS.includes(told(phrase)) && !isKnown(phrase));
    expect(without.map((phrase) => `${phrase.file}: ${told(phrase)}`)).toEqual([]);
  });

  it('is left out of that only where it still stands', () => {
    expect(NOT_REASONS.filter((text) => !phrases.some((phrase) => told(phrase) === text))).toEqual([]);
    expect(Object.keys(NOT_TOLD).filter((file) => !SOURCES.includes(file))).toEqual([]);
  });

  it('is written somewhere, each sentence that stands ready', () => {
    // Made of two phrases each, or of a name, or held against their functions below.
    const made = ['with-code', 'board-numbered', 'held-by-button', 'held-by-board', 'says-too-much'];
    const spoilt = ['entry-spoilt', 'reading-spoilt', 'setup-differs-at', 'setup-schema', 'setup-byte'];
    const found = new Set<string>([...made, ...spoilt]);
    for (const { parts } of phrases)
      for (let choice = 0; choice < 3 ** (parts.length - 1); choice += 1) {
        const reason = reasonOf(filled(parts, choice));
        if (reason.kind === 'named') found.add(reason.name);
      }
    expect(Object.keys(HOST_REASONS).filter((name) => !found.has(name))).toEqual([]);
  });

  it.each(Object.keys(HOST_REASONS).filter((name) => name !== 'with-code'))(
    '%s has the same places in four languages, and is left in English in none',
    (name) => {
      const sentences = Object.entries(HOST_REASONS).find(([key]) => key === name)?.[1];
      const places = (sentence = ''): readonly string[] =>
        (sentence.match(/\{\w+\}/g) ?? []).filter((place) => place !== '{unsaid}').toSorted();
      for (const code of ['pt', 'es', 'fr'] as const) {
        expect(places(sentences?.[code])).toEqual(places(sentences?.en));
        expect(sentences?.[code]).not.toBe(sentences?.en);
      }
    },
  );

  it('is known in what a board flashed for something else is refused with', () => {
    const board = new Uint8Array(72);
    board[0] = 1;
    const farm = Uint8Array.from(board);
    farm[2] = 8;
    const other = Uint8Array.from(board);
    other[70] = 9;
    const blank = new Uint8Array(72).fill(3);
    const says = (found: Uint8Array): string => setupWhy(setupDifferences(found, farm));
    expect(reasonText(reasonOf(`/dev/ttyACM0: ${says(board)}`), LANGUAGES.pt)).toBe(
      `/dev/ttyACM0: a placa foi gravada para outra coisa do que diz o ficheiro da exploração: mude board.relay.pin, ou grave a placa de novo: ${FLASH_AGAIN}`,
    );
    expect(reasonText(reasonOf(says(board)), LANGUAGES.en)).toBe(says(board));
    expect(reasonOf(says(blank))).toMatchObject({ name: 'setup-schema' });
    expect(reasonOf(setupWhy(setupDifferences(other, board)))).toMatchObject({ name: 'setup-byte' });
  });

  it.each([
    ['there is no such port', 'essa porta não existe'],
    ['/dev/ttyUSB0: there is no such port', '/dev/ttyUSB0: essa porta não existe'],
    [
      'this host has started 3 times within 10 min without being asked to stop',
      'arrancou 3 vezes em 10 min sem ninguém o parar',
    ],
    [
      'of the last 5 starts of this host none is known to have lasted 10 min',
      'nenhum dos últimos 5 arranques terá durado 10 min',
    ],
    ['held by the button', 'paragem pedida com o botão'],
    [errorWords('+CMS ERROR: 38'), 'a rede móvel está avariada (+CMS ERROR: 38)'],
    [errorWords('+CME ERROR: 9999'), 'o modem responde "+CME ERROR: 9999"'],
    [
      `the mail server: ${networkWords(Object.assign(new Error('x'), { code: 'ENOTFOUND' }), String)}`,
      'o servidor de correio: ninguém conhece esse nome (ENOTFOUND)',
    ],
    ['the mail server: Greeting never received', 'o servidor de correio: "Greeting never received"'],
    ['the disk is full: database or disk is full', 'o disco está cheio: "database or disk is full"'],
    ['disk I/O error (SQLITE_IOERR_FSYNC)', '"disk I/O error (SQLITE_IOERR_FSYNC)"'],
    ['entry 2 does not fit its check sum', 'o registo 2 do livro está estragado'],
    [
      'another board answers: "Uno", serial number 55; this host was driving "Rill". Restart it to take another board',
      'responde outra placa: "Uno", número de série 55; este computador usava "Rill". Reinicie-o para aceitar outra placa',
    ],
  ])('is told in Portuguese, foreign words quoted: %s', (says, portuguese) => {
    expect(reasonText(reasonOf(says), LANGUAGES.pt)).toBe(portuguese);
    expect(reasonText(reasonOf(says), LANGUAGES.en)).toBe(says);
  });
});
