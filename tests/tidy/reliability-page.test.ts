import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { reliabilityPage, type LastCampaign } from '../../sim/campaign/reliability-page.ts';
import { FAULT_ROWS } from '../../sim/faults/table.ts';

describe('docs/reliability.md', () => {
  const page = readFileSync('docs/reliability.md', 'utf8');

  it('is what the fault table and the last campaign make of it', () => {
    const last = JSON.parse(readFileSync('docs/last-campaign.json', 'utf8')) as LastCampaign;
    expect(page).toBe(reliabilityPage(last));
  });

  it('has all 72 faults', () => {
    expect(FAULT_ROWS.filter(({ number }) => !page.includes(`\n| ${number} |`))).toEqual([]);
  });
});
