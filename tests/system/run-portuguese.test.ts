import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { briskFarm } from './brisk-farm.ts';
import { linesOf, rillkeeper, startedLong } from './rillkeeper.ts';
import { textingModem } from './texting-modem.ts';

const SECONDS = 1000;
vi.setConfig({ testTimeout: 150 * SECONDS });

const ANA = '+351912000001';
const heraldBy = (port: string): string => `
language: pt
herald:
  people: [{ name: Ana, phone: '${ANA}' }]
  modem: { port: ${port} }
`;

describe('a host of a Portuguese farm in its third start within 10 min, without board and modem', () => {
  it('raises safe mode, board and modem with reasons in Portuguese, and none of its own English', async () => {
    const { file } = briskFarm('Horta', heraldBy('/dev/rillkeeper-no-modem'));
    const run = ['run', file, '--board', '/dev/rillkeeper-no-board'];
    for (let start = 0; start < 2; start += 1) {
      const killed = startedLong(...run);
      await killed.said('Horta: running');
      killed.child.kill('SIGKILL');
      await killed.ended;
    }
    const running = startedLong(...run);
    await Promise.all([
      running.said('O computador trabalha com o mínimo'),
      running.said('A placa não responde'),
      running.said('Não se chega a ninguém por modem'),
    ]);
    running.child.kill('SIGTERM');
    const { stdout } = await running.ended;
    const alarms = linesOf(stdout).filter((line) => line.includes('ALARM ('));
    const of = (words: string): string => alarms.find((line) => line.includes(words)) ?? '';
    expect(of('O computador trabalha')).toContain(
      'depois de 3 arranques: arrancou 3 vezes em 10 min sem ninguém o parar.',
    );
    expect(of('A placa não responde')).toContain('/dev/rillkeeper-no-board: essa porta não existe');
    expect(of('Não se chega a ninguém por modem')).toContain(': essa porta não existe.');
    expect(alarms.join('\n')).not.toMatch(/\bthere is|this host|started|"/);
  });
});

describe('Ana, who sends "?" to the modem of a Portuguese farm', () => {
  it('is answered how it stands in Portuguese, while status tells it in English', async () => {
    const modem = await textingModem();
    onTestFinished(modem.close);
    const { file } = briskFarm('Várzea', heraldBy(modem.port));
    const running = startedLong('run', file, '--board', '/dev/rillkeeper-none');
    onTestFinished(() => void running.child.kill('SIGKILL'));
    await running.said('A placa não responde');
    modem.comes({ from: ANA, body: '?' });
    // In the default alphabet the accents of Portuguese are left out (3GPP TS 23.038, 6.2.1), but for those it has.
    const answer = () => modem.sentTexts().find((text) => text.startsWith('SEM PLACA'));
    await expect.poll(answer, { timeout: 60 * SECONDS }).toMatch(/^SEM PLACA ha .*, restam cerca de /);
    expect((await rillkeeper('status', file)).stdout).toContain('NO BOARD for');
    running.child.kill('SIGTERM');
    expect((await running.ended).code).toBe(0);
  });
});
