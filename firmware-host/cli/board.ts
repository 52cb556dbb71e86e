import { connect } from '../devices/connection.ts';
import type { FirmataClient } from '../devices/device-library.ts';
import { firmwareWords, hasKeeper, STOCK_WARNING, type BoardIdentity } from '../devices/identity.ts';
import { serialLines } from '../devices/serial-lines.ts';
import { realTimers } from '../devices/timers.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { Refusal } from './refusal.ts';
import { wrapped } from './wrap.ts';

export interface BoardOptions {
  readonly json?: boolean;
}

/** `rillkeeper board list`: the serial ports on which a board may be. Nothing is opened. */
export const boardList = async (options: BoardOptions, console: Console): Promise<ExitCode> => {
  const found = await serialLines.candidates();
  if (options.json === true) console.out(JSON.stringify(found, null, 2));
  else if (found.length === 0) {
    console.talk('No serial port is there. Plug the board in; a cable may carry power and no data.');
  } else {
    for (const { name, serialNumber, says } of found) {
      console.out(
        [name, says, serialNumber === null ? 'no serial number' : `serial number ${serialNumber}`].join('  '),
      );
    }
  }
  return EXIT.done;
};

interface Found {
  readonly identity: BoardIdentity;
  readonly digitalPins: readonly number[];
  readonly analogPins: readonly string[];
}

const pinsOf = ({ pins, analogPins, MODES }: FirmataClient): Pick<Found, 'digitalPins' | 'analogPins'> => ({
  digitalPins: pins.flatMap((pin, number) =>
    pin.supportedModes.includes(MODES.PULLUP) && !analogPins.includes(number) ? [number] : [],
  ),
  analogPins: analogPins.map((_, channel) => `A${channel}`),
});

/** Asks the device at a port who it is; no pin is touched. */
const askedWho = async (port: string): Promise<Found> => {
  const candidates = await serialLines.candidates();
  const candidate = candidates.find(({ name }) => name === port) ?? {
    name: port,
    serialNumber: null,
    says: '',
  };
  return new Promise((answer, refuse) => {
    const connection = connect({
      parts: null,
      open: serialLines.open,
      candidate,
      speak: 'first',
      before: null,
      timers: realTimers,
      heard: () => undefined,
      pressed: () => undefined,
      ready: (identity, client) => {
        const found = { identity, ...pinsOf(client) };
        void connection.close().then(() => {
          answer(found);
        });
      },
      gone: (why) => {
        refuse(
          new Refusal(
            `${port}: ${why}. See "rillkeeper board list"; the board needs Firmata at 57600 baud, stock or own (hardware-notes/README.md).`,
            EXIT.noBoard,
          ),
        );
      },
    });
  });
};

/** `rillkeeper board info PORT` */
export const boardInfo = async (port: string, options: BoardOptions, console: Console): Promise<ExitCode> => {
  console.talk(`Asking ${port}; opening the port restarts most boards.`);
  const { identity, digitalPins, analogPins } = await askedWho(port);
  if (options.json === true) {
    console.out(
      JSON.stringify(
        { port, ...identity, digitalPins, analogPins, warning: hasKeeper(identity) ? null : STOCK_WARNING },
        null,
        2,
      ),
    );
    return EXIT.done;
  }
  console.out(
    [
      `${port}: ${identity.firmwareName} ${identity.firmwareVersion}, Firmata ${identity.protocolVersion}`,
      `  serial number  ${identity.serialNumber ?? 'none: known by its firmware name only'}`,
      `  digital pins   ${digitalPins.join(', ')} (2 to 12 may be wired)`,
      `  analog pins    ${analogPins.join(', ')}`,
      ...(hasKeeper(identity)
        ? ['  not listed     relay, buzzer, lamp and probe drive: the keeper has them']
        : []),
      '',
      wrapped(firmwareWords(identity), console.columns),
    ].join('\n'),
  );
  return EXIT.done;
};
