import type { Page } from 'playwright-core';

/** What an operator saw and pressed on the Floor, in order, each once in a row. */
export interface FloorRun {
  readonly pressed: readonly string[];
  readonly questions: readonly string[];
}

const patience = { timeout: 1000 };

/** Presses what is to be pressed now, if anything is, and tells what it was. */
async function pressWhatIsDue(page: Page, told: { pressed(words: string): void; asked(words: string): void }) {
  const main = page.locator('.act-main');
  const question = page.locator('.question-card');
  const call = page.locator('.act-others button', { hasText: /^Call / });
  const said = (await main.textContent(patience).catch(() => '')) ?? '';
  if (await question.isVisible()) {
    const asked = question.locator('p').first();
    told.asked((await asked.textContent(patience).catch(() => '')) ?? '');
    await question
      .locator('button')
      .first()
      .click(patience)
      .catch(() => {});
  } else if ((await main.isEnabled(patience).catch(() => false)) && !said.startsWith('Stop')) {
    told.pressed(said);
    await main.click(patience).catch(() => {});
  } else if (await call.isVisible()) {
    told.pressed((await call.textContent(patience).catch(() => '')) ?? '');
    await call.click(patience).catch(() => {});
  }
}

/** Presses what is to be pressed until the rig is in a phase; the press that leads out of it is not made. */
export async function runToPhase(page: Page, phase: string, within: number): Promise<void> {
  const end = Date.now() + within;
  const nothing = { pressed: () => {}, asked: () => {} };
  while (Date.now() < end) {
    if (
      (await page
        .locator('.floor')
        .getAttribute('data-phase', patience)
        .catch(() => null)) === phase
    )
      return;
    await pressWhatIsDue(page, nothing);
    await page.waitForTimeout(120);
  }
  throw new Error(`the Floor did not come to ${phase}: ${await page.locator('.floor').textContent()}`);
}

/**
 * An operator who has read nothing: presses the large button whenever it can be pressed, answers a question with its first
 * answer, and calls whoever is offered while somebody rests. Ends when nobody is due any more.
 */
export async function runByTheButtons(page: Page, within: number): Promise<FloorRun> {
  const pressed: string[] = [];
  const questions: string[] = [];
  const note = (list: string[], text: string) => {
    if (list.at(-1) !== text) list.push(text);
  };
  const end = Date.now() + within;
  while (Date.now() < end) {
    const said = await page
      .locator('.act-main')
      .textContent(patience)
      .catch(() => '');
    if (said === 'Nobody is due') return { pressed, questions };
    await pressWhatIsDue(page, {
      pressed: (text) => note(pressed, text),
      asked: (text) => note(questions, text),
    });
    await page.waitForTimeout(120);
  }
  throw new Error(`the Floor did not come to its end; pressed: ${pressed.slice(-12).join(' | ')}`);
}
