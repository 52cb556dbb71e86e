import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join, resolve } from 'node:path';
import type { Readable, Writable } from 'node:stream';
import { pathToFileURL } from 'node:url';

/** What a page told the browser that it wanted or could not do. */
export interface Heard {
  /** Addresses asked for, the page's own left out. */
  readonly requests: readonly string[];
  readonly errors: readonly string[];
}

export interface OpenPage extends Heard {
  /** The value of an expression in the page; works with script off too. */
  readonly value: (expression: string) => Promise<unknown>;
  /** A PNG of the whole page. */
  readonly picture: () => Promise<Buffer>;
}

export interface Browser {
  readonly open: (
    file: string,
    how: { readonly widthPixels: number; readonly script: 'on' | 'off' },
  ) => Promise<OpenPage>;
  readonly close: () => Promise<void>;
}

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly params?: Record<string, unknown>;
  readonly result?: Record<string, unknown>;
  readonly error?: { readonly message: string };
  readonly sessionId?: string;
}

const PROGRAM = 'chromium';
const HEIGHT_PIXELS = 800;
const PATIENCE_MILLIS = 50_000;

const programFile = (): string => {
  const file = (process.env['PATH'] ?? '')
    .split(delimiter)
    .map((folder) => join(folder, PROGRAM))
    .find((path) => existsSync(path));
  if (file === undefined) throw new Error(`these tests need the program "${PROGRAM}" (Debian: chromium)`);
  return file;
};

/** Debian's chromium without a screen, spoken to over two pipes as its DevTools protocol says; no port, no profile kept. */
export const startedBrowser = (): Browser => {
  const profile = mkdtempSync(join(tmpdir(), 'rillkeeper-browser-'));
  const child = spawn(
    programFile(),
    [
      '--headless=new',
      // No sandbox inside a container run by root; the page is our own file.
      '--no-sandbox',
      '--disable-gpu',
      '--disable-dev-shm-usage',
      '--hide-scrollbars',
      `--user-data-dir=${profile}`,
      '--remote-debugging-pipe',
    ],
    { stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'], timeout: 10 * PATIENCE_MILLIS },
  );
  const [, , , toChild, fromChild] = child.stdio as unknown as [null, null, null, Writable, Readable];
  const waiting = new Map<number, (message: Message) => void>();
  const hearers = new Set<(message: Message) => void>();
  let last = 0;
  let rest = '';
  toChild.on('error', () => undefined);
  fromChild.setEncoding('utf8').on('data', (part: string) => {
    const messages = (rest + part).split('\0');
    rest = messages.pop() ?? '';
    for (const text of messages) {
      const message = JSON.parse(text) as Message;
      if (message.id === undefined)
        hearers.forEach((hear) => {
          hear(message);
        });
      else waiting.get(message.id)?.(message);
    }
  });
  const ask = (method: string, params: object = {}, sessionId?: string): Promise<Record<string, unknown>> =>
    new Promise((answer, fail) => {
      last += 1;
      const id = last;
      const timer = setTimeout(() => {
        fail(new Error(`no answer to ${method}`));
      }, PATIENCE_MILLIS);
      waiting.set(id, ({ result, error }) => {
        clearTimeout(timer);
        waiting.delete(id);
        if (error === undefined) answer(result ?? {});
        else fail(new Error(`${method}: ${error.message}`));
      });
      toChild.write(
        `${JSON.stringify({ id, method, params, ...(sessionId === undefined ? {} : { sessionId }) })}\0`,
      );
    });
  return {
    open: async (file, { widthPixels, script }) => {
      const url = pathToFileURL(resolve(file)).href;
      const { targetId } = await ask('Target.createTarget', { url: 'about:blank' });
      const { sessionId } = await ask('Target.attachToTarget', { targetId, flatten: true });
      const page = (method: string, params: object = {}): Promise<Record<string, unknown>> =>
        ask(method, params, sessionId as string);
      const requests: string[] = [];
      const errors: string[] = [];
      const loaded = new Promise<void>((done) => {
        hearers.add(({ sessionId: of, method, params }) => {
          if (of !== sessionId) return;
          if (method === 'Page.loadEventFired') done();
          if (method === 'Network.requestWillBeSent') {
            const asked = (params?.['request'] as { readonly url: string }).url;
            if (asked !== url) requests.push(asked);
          }
          if (method === 'Runtime.exceptionThrown' || method === 'Log.entryAdded')
            errors.push(JSON.stringify(params));
        });
      });
      for (const domain of ['Page', 'Network', 'Runtime', 'Log']) await page(`${domain}.enable`);
      await page('Emulation.setScriptExecutionDisabled', { value: script === 'off' });
      await page('Emulation.setDeviceMetricsOverride', {
        width: widthPixels,
        height: HEIGHT_PIXELS,
        deviceScaleFactor: 1,
        mobile: widthPixels < 600,
      });
      await page('Page.navigate', { url });
      await loaded;
      return {
        requests,
        errors,
        value: async (expression) => {
          const { result, exceptionDetails } = await page('Runtime.evaluate', {
            expression,
            returnByValue: true,
          });
          if (exceptionDetails !== undefined) throw new Error(JSON.stringify(exceptionDetails));
          return (result as { readonly value?: unknown }).value;
        },
        picture: async () => {
          const { data } = await page('Page.captureScreenshot', {
            format: 'png',
            captureBeyondViewport: true,
          });
          return Buffer.from(data as string, 'base64');
        },
      };
    },
    close: async () => {
      const gone = new Promise<void>((end) => {
        child.once('close', () => {
          end();
        });
      });
      await ask('Browser.close').catch(() => child.kill('SIGKILL'));
      await gone;
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    },
  };
};
