import { once } from 'node:events';
import { createServer, type AddressInfo, type Socket } from 'node:net';

/** What a peer says first, and then again and again as fast as it is taken. */
export interface Loud {
  readonly begins: 'at-once' | 'when-asked';
  readonly first: Uint8Array;
  readonly again: Uint8Array;
  /** A pause after each; none unless given. */
  readonly everyMillis?: number;
}

export interface LoudPeer {
  readonly port: number;
  readonly seen: () => {
    readonly connections: number;
    /** Of these, those that the other side has ended. */
    readonly left: number;
    /** The most bytes that one of them has taken, those in the kernel's buffers with them. */
    readonly bytesMost: number;
  };
  readonly close: () => void;
}

const text = (words: string): Uint8Array => Buffer.from(words, 'latin1');
const PIECE = 65_536;
const many = (words: string): Uint8Array => text(words.repeat(Math.ceil(PIECE / words.length)));

/** MQTT 3.1.1, 3.2: a connection that is taken. */
const CONNACK = Uint8Array.of(0x20, 2, 0, 0);
/** 3.3: a message of QoS 2, identifier 1, for the topic `a`, with 1,000 bytes. */
const MESSAGE = Uint8Array.from([
  0x34,
  0xed,
  0x07,
  0,
  1,
  0x61,
  0,
  1,
  ...Array.from({ length: 1000 }, () => 0),
]);
/** 2.2.3: the longest that may be announced, 268,435,455 bytes. */
const LONGEST = Uint8Array.of(0x30, 0xff, 0xff, 0xff, 0x7f);

const WEB_HEAD = 'HTTP/1.1 200 OK\r\n';

export const LOUD_MAIL: Readonly<Record<string, Loud>> = {
  'ends no line of its banner': { begins: 'at-once', first: text('220 '), again: many('x') },
  'ends no banner of many lines': { begins: 'at-once', first: text(''), again: many('220-shed\r\n') },
  'says empty lines without end': { begins: 'at-once', first: text(''), again: many('\r\n') },
  'greets without end': { begins: 'at-once', first: text(''), again: many('220 shed\r\n') },
};

export const LOUD_BROKERS: Readonly<Record<string, Loud>> = {
  'floods with messages that nobody has asked for': {
    begins: 'when-asked',
    first: CONNACK,
    again: Buffer.concat(Array.from({ length: 64 }, () => MESSAGE)),
  },
  'begins a message of 256 MB': {
    begins: 'when-asked',
    first: Buffer.concat([CONNACK, LONGEST]),
    again: many('x'),
  },
};

export const LOUD_HOOKS: Readonly<Record<string, Loud>> = {
  'answers without end': { begins: 'when-asked', first: text(`${WEB_HEAD}\r\n`), again: many('x') },
  'ends no line of its head': { begins: 'when-asked', first: text(`${WEB_HEAD}a: `), again: many('x') },
  'ends no head': { begins: 'when-asked', first: text(WEB_HEAD), again: many('a: b\r\n') },
  'drips its head': { begins: 'when-asked', first: text(WEB_HEAD), again: text('a'), everyMillis: 100 },
};

/** RFC 9110, 15.2: an answer before the answer, of which there may be any number. */
export const LOUD_INTERIM: Loud = {
  begins: 'when-asked',
  first: text(''),
  again: many('HTTP/1.1 102 Processing\r\n\r\n'),
};

/** A peer that does not stop. */
export const startLoud = async ({ begins, first, again, everyMillis }: Loud): Promise<LoudPeer> => {
  const sockets: Socket[] = [];
  let bytesMost = 0;
  let left = 0;
  const server = createServer((socket) => {
    sockets.push(socket);
    socket.on('error', () => undefined);
    socket.on('close', () => (left += 1));
    const more = (): void => {
      bytesMost = Math.max(bytesMost, socket.bytesWritten - socket.writableLength);
      if (socket.destroyed) return;
      if (everyMillis !== undefined) setTimeout(more, everyMillis);
      if (socket.write(again)) {
        if (everyMillis === undefined) setImmediate(more);
      } else if (everyMillis === undefined) socket.once('drain', more);
    };
    const start = (): void => {
      socket.write(first);
      more();
    };
    if (begins === 'at-once') start();
    else socket.once('data', start);
    socket.resume();
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return {
    port: (server.address() as AddressInfo).port,
    seen: () => ({ connections: sockets.length, left, bytesMost }),
    close: () => {
      for (const socket of sockets) socket.destroy();
      server.close();
    },
  };
};
