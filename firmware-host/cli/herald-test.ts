import { toGsm7 } from '../../src/alarm/language/gsm7.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { localClockText } from '../../src/time/local-day.ts';
import { ATTEMPT_SECONDS } from '../../src/delivery/delivery-bounds.ts';
import { failed, type Addressee, type Form, type Sent } from '../../src/delivery/message.ts';
import type { Channel } from '../herald/channel.ts';
import { modemLines } from '../devices/serial-lines.ts';
import { openChannels } from '../herald/channels.ts';
import { addressee } from '../../src/delivery/rota.ts';
import { readSecrets } from '../herald/secrets.ts';
import { stateFolder } from '../storage/state-folder.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm } from './farm-argument.ts';
import { Refusal } from './refusal.ts';

export interface HeraldTestOptions {
  readonly person: readonly string[];
  readonly channel: readonly string[];
  readonly ring?: true;
  readonly json?: true;
}

interface Errand {
  readonly channel: Channel;
  readonly form: Form;
  readonly to: Addressee | null;
}

const canTake = ({ phone, email }: Addressee, form: Form): boolean =>
  form === 'mail' ? email !== null : phone !== null;

const errandsOf = (
  channels: readonly Channel[],
  people: readonly Addressee[],
  options: HeraldTestOptions,
): readonly Errand[] =>
  channels.flatMap((channel) =>
    channel.forms
      .filter((form) => form !== 'ring' || options.ring === true)
      .flatMap((form): readonly Errand[] =>
        form === 'post'
          ? options.person.length === 0
            ? [{ channel, form, to: null }]
            : []
          : people.filter((person) => canTake(person, form)).map((to) => ({ channel, form, to })),
      ),
  );

const refuseUnknown = (asked: readonly string[], known: readonly string[], what: string): void => {
  const unknown = asked.find((name) => !known.includes(name));
  if (unknown === undefined) return;
  const listed = known.length === 0 ? 'the farm file names none' : `there are ${known.join(', ')}`;
  throw new Refusal(`--${what} ${unknown}: no such ${what}; ${listed}.`, EXIT.usage);
};

const sentWith = async ({ channel, form, to }: Errand, text: string, id: number): Promise<Sent> => {
  // A little less than delivery itself allows, so that the channel says what it waited for.
  const signal = AbortSignal.timeout(ATTEMPT_SECONDS[form] * 1000);
  const hung = new Promise<Sent>((done) => {
    signal.addEventListener('abort', () => {
      setTimeout(() => {
        done(failed(`no answer within ${ATTEMPT_SECONDS[form]} s`));
      }, 500);
    });
  });
  return Promise.race([
    channel.send({ id, form, to, text, call: null, calledAt: null, purpose: 'test' }, signal),
    hung,
  ]);
};

/** `rillkeeper herald test FARM` */
export const heraldTest = async (
  path: string,
  options: HeraldTestOptions,
  console: Console,
): Promise<ExitCode> => {
  const { farm, file } = await acceptedFarm(path);
  const { herald } = farm;
  if (farm.invented !== undefined) {
    throw new Refusal(`${file}: this farm is invented, and nobody is called for it.`);
  }
  if (herald === undefined) throw new Refusal(`${file}: there is no herald section, so nobody is called.`);
  const folder = stateFolder(farm.farm);
  const secrets = await readSecrets(folder);
  if (secrets.refused !== null) console.talk(secrets.refused);
  const { all } = await openChannels({
    farm: farm.farm,
    herald,
    secrets,
    folder,
    toGsm7,
    openLine: modemLines,
    came: () => undefined,
    as: 'test',
  });
  try {
    const people = herald.people.map(addressee);
    refuseUnknown(
      options.person,
      people.map(({ name }) => name),
      'person',
    );
    refuseUnknown(
      options.channel,
      all.map(({ name }) => name),
      'channel',
    );
    const chosen = all.filter(({ name }) => options.channel.length === 0 || options.channel.includes(name));
    const called = people.filter(({ name }) => options.person.length === 0 || options.person.includes(name));
    const errands = errandsOf(chosen, called, options);
    if (errands.length === 0) throw new Refusal(`${file}: no channel leads to anybody; nothing was sent.`);
    const clock = localClockText(wallMillis(Date.now()), farm.place.timeZone);
    const text = `TEST of the alarm calls of ${farm.farm}, ${clock}. Nothing is wrong. Please say that this arrived.`;
    const results: { channel: string; form: string; person: string | null; ok: boolean; says: string }[] = [];
    for (const [place, errand] of errands.entries()) {
      const sent = await sentWith(errand, text, place + 1);
      const says = secrets.hidden(sent.kind === 'sent' ? sent.says : sent.why);
      const person = errand.to?.name ?? null;
      results.push({
        channel: errand.channel.name,
        form: errand.form,
        person,
        ok: sent.kind === 'sent',
        says,
      });
      if (options.json === true) continue;
      const to = person === null ? '' : ` to ${person}`;
      console.out(
        `${sent.kind === 'sent' ? 'taken ' : 'FAILED'}  ${errand.channel.name}, ${errand.form}${to}: ${says}`,
      );
    }
    if (options.json === true) console.out(JSON.stringify(results, null, 2));
    else console.talk('Taken is not arrived: ask each person.');
    return results.every(({ ok }) => ok) ? EXIT.done : EXIT.notWell;
  } finally {
    await Promise.race([
      Promise.all(all.map((channel) => channel.close())),
      new Promise((go) => setTimeout(go, 3000)),
    ]);
  }
};
