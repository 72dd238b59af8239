import { afterAll, describe, expect, it } from 'vitest';
import { runCampaign } from './campaign.ts';
import { campaigns, cleanUp } from './campaigns/index.ts';

describe('under torture', () => {
  afterAll(cleanUp);

  for (const campaign of campaigns) {
    it(`${campaign.name}: ${campaign.claim}`, async ({ skip }) => {
      const reason = await campaign.unavailable?.();
      if (reason !== undefined) skip(reason);
      const { failure, sums } = await runCampaign(campaign, 1, campaign.rounds.short);
      const replay = failure && `seed ${failure.seed}: ${failure.message}`;
      expect(replay).toBeUndefined();
      expect(Object.values(sums).some((sum) => sum > 0)).toBe(true);
    }, 900_000);
  }
});
