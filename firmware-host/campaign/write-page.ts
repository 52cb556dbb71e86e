import { readFileSync, writeFileSync } from 'node:fs';
import { reliabilityPage, type LastCampaign } from '../../sim/campaign/reliability-page.ts';

/** Writes the page anew; `npm run reliability`. */
const last = JSON.parse(readFileSync('docs/last-campaign.json', 'utf8')) as LastCampaign;
writeFileSync('docs/reliability.md', reliabilityPage(last));
