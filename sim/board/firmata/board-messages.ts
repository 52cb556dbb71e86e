import { COMMAND } from './bytes.ts';

const REPORT_BYTES = 3;
const CHANNEL_MASK = 0x0f;

const lengthAt = (bytes: Uint8Array, start: number): number => {
  if (bytes[start] !== COMMAND.startSysex) return REPORT_BYTES;
  const end = bytes.indexOf(COMMAND.endSysex, start);
  return (end === -1 ? bytes.length : end + 1) - start;
};

/** What a board has said, message by message; its outbox gives whole ones only. */
export const boardMessages = (bytes: Uint8Array): readonly Uint8Array[] => {
  const messages: Uint8Array[] = [];
  for (let start = 0; start < bytes.length; start += messages.at(-1)?.length ?? bytes.length)
    messages.push(bytes.subarray(start, start + lengthAt(bytes, start)));
  return messages;
};

/** Whether it tells what a pin reads. */
export const isReport = ([first = 0]: Uint8Array): boolean => {
  const command = first & ~CHANNEL_MASK;
  return command === COMMAND.analog || command === COMMAND.digitalPort;
};
