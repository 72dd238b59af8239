// npm run torture -- [--only name,name] [--rounds n] [--seed n]
import { parseArgs } from 'node:util';
import { runCampaign } from './campaign.ts';
import { campaigns, cleanUp } from './campaigns/index.ts';

const { values } = parseArgs({
  options: { only: { type: 'string' }, rounds: { type: 'string' }, seed: { type: 'string', default: '1' } },
});
const wholeNumber = (text: string, name: string): number => {
  if (/^\d{1,9}$/.test(text)) return Number(text);
  console.error(`--${name} wants a whole number, not "${text}".`);
  process.exit(2);
};
const seed = wholeNumber(values.seed, 'seed');
const rounds = values.rounds === undefined ? undefined : wholeNumber(values.rounds, 'rounds');
const only = values.only?.split(',');
const unknown = only?.filter((name) => !campaigns.some((campaign) => campaign.name === name)) ?? [];
if (unknown.length > 0) {
  console.error(`No campaign ${unknown.join(', ')}. There are: ${campaigns.map(({ name }) => name).join(', ')}.`);
  process.exit(2);
}

let failed = false;
for (const campaign of campaigns) {
  if (only !== undefined && !only.includes(campaign.name)) continue;
  const title = `promise ${String(campaign.promise).padStart(2)}  ${campaign.name.padEnd(14)}`;
  const reason = await campaign.unavailable?.();
  if (reason !== undefined) {
    console.log(`${title} skipped  ${reason}`);
    continue;
  }
  const began = performance.now();
  const result = await runCampaign(campaign, seed, rounds ?? campaign.rounds.full, true);
  const took = ((performance.now() - began) / 1000).toFixed(1);
  const sums = Object.entries(result.sums).map(([name, sum]) => `${name} ${Math.round(sum)}`);
  if (result.failure === undefined) {
    console.log(`${title} held     ${result.rounds} rounds, ${took} s; ${sums.join(', ')}`);
    continue;
  }
  failed = true;
  console.log(`${title} BROKEN   seed ${result.failure.seed}: ${result.failure.message}`);
  console.log(`  again: npm run torture -- --only ${campaign.name} --rounds 1 --seed ${result.failure.seed}`);
}
await cleanUp();
process.exit(failed ? 5 : 0);
