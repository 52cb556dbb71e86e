import { ok, type Script } from './fake-modem.ts';

export interface Held {
  readonly index: number;
  readonly from: string;
  /** Lines apart by CR and LF. */
  readonly body: string;
  readonly status?: string;
  readonly at?: string;
}

/** What a modem holds, by 3GPP TS 27.005, text mode; the test may put in more while it is read. */
export interface Card {
  readonly held: Held[];
  readonly script: Script;
}

const INDICES = Array.from({ length: 60 }, (_, place) => place);
const NO_SUCH = '\r\n+CMS ERROR: 321\r\n';

const fields = ({ status = 'REC UNREAD', from, at = '26/07/14,13:42:00+04' }: Held): string =>
  `"${status}","${from}",,"${at}"`;

/** `deletes`: what the modem says to AT+CMGD; any error leaves the text where it is. */
export const cardOf = (
  held: Held[],
  deletes: (index: number) => string = () => ok,
  nothingThere: string = NO_SUCH,
): Card => {
  const listed = (): string =>
    held.map((each) => `\r\n+CMGL: ${each.index},${fields(each)}\r\n${each.body}`).join('') + `\r\n${ok}`;
  const read = (index: number): string => {
    const each = held.find((one) => one.index === index);
    return each === undefined ? nothingThere : `\r\n+CMGR: ${fields(each)}\r\n${each.body}\r\n${ok}`;
  };
  const deleted = (index: number): string => {
    const says = deletes(index);
    const place = held.findIndex((one) => one.index === index);
    if (says === ok && place >= 0) held.splice(place, 1);
    return says;
  };
  return {
    held,
    script: {
      'AT+CMGL="ALL"': listed,
      ...Object.fromEntries(INDICES.map((index) => [`AT+CMGR=${index}`, () => read(index)])),
      ...Object.fromEntries(INDICES.map((index) => [`AT+CMGD=${index}`, () => deleted(index)])),
    },
  };
};
