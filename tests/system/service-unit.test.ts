import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ALLOWED_SECONDS } from '../../firmware-host/heartbeat/health-table.ts';

const UNIT = readFileSync('hardware-notes/rillkeeper.service', 'utf8');
const valueOf = (key: string): string | undefined => new RegExp(`^${key}=(.*)$`, 'm').exec(UNIT)?.[1];

describe('the unit of the service', () => {
  it('is found good by systemd-analyze verify, with the program of this machine in it', () => {
    const file = join(mkdtempSync(join(tmpdir(), 'rillkeeper-unit-')), 'rillkeeper.service');
    const own = UNIT.replace('/usr/bin/node', process.execPath).replace(/^User=.*$/m, 'User=root');
    writeFileSync(file, own);
    // Fails where systemd is not installed: apt-get install systemd
    const said = execFileSync('systemd-analyze', ['verify', file], { encoding: 'utf8', stdio: 'pipe' });
    expect(said).toBe('');
  });

  it('starts anew whatever ends the host, and never gives up', () => {
    expect([
      valueOf('Restart'),
      valueOf('StartLimitIntervalSec'),
      valueOf('RestartPreventExitStatus'),
      valueOf('SuccessExitStatus'),
    ]).toEqual(['always', '0', '2', '75']);
  });

  it('goes through the link, and looks for the way back after each end, as root and without failing for it', () => {
    expect(valueOf('ExecStart')).toContain(' /opt/rillkeeper/current/dist/main.mjs run ');
    expect(valueOf('ExecStopPost')).toBe('+-/bin/sh /opt/rillkeeper/way-back.sh');
  });

  it('lets a child speak for the host, under a watchdog of 60 s that no allowed silence outlasts', () => {
    expect([valueOf('Type'), valueOf('NotifyAccess'), valueOf('WatchdogSec')]).toEqual([
      'notify',
      'all',
      '60',
    ]);
    expect(Math.max(...Object.values(ALLOWED_SECONDS))).toBeLessThan(60);
  });
});
