import type { Page } from 'playwright-core';

/** What an operator saw and pressed on the Floor, in order, each once in a row. */
export interface FloorRun {
  readonly pressed: readonly string[];
  readonly questions: readonly string[];
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
  const press = { timeout: 1000 };
  const main = page.locator('.act-main');
  const question = page.locator('.question-card');
  const call = page.locator('.act-others button', { hasText: /^Call / });
  const end = Date.now() + within;
  while (Date.now() < end) {
    const said = (await main.textContent(press).catch(() => '')) ?? '';
    if (said === 'Nobody is due') return { pressed, questions };
    if (await question.isVisible()) {
      note(
        questions,
        (await question
          .locator('p')
          .first()
          .textContent(press)
          .catch(() => '')) ?? '',
      );
      await question
        .locator('button')
        .first()
        .click(press)
        .catch(() => {});
    } else if ((await main.isEnabled(press).catch(() => false)) && !said.startsWith('Stop')) {
      note(pressed, said);
      await main.click(press).catch(() => {});
    } else if (await call.isVisible()) {
      note(pressed, (await call.textContent(press).catch(() => '')) ?? '');
      await call.click(press).catch(() => {});
    }
    await page.waitForTimeout(120);
  }
  throw new Error(`the Floor did not come to its end; pressed: ${pressed.slice(-12).join(' | ')}`);
}

/**
 * Presses the large button until the rig is in a phase, answering questions with their first answer and calling whoever is offered.
 * Looking and pressing are one step in the page, so that on a busy machine no press leads out of the phase that was wanted.
 */
export async function runToPhase(page: Page, phase: string, within: number): Promise<void> {
  const end = Date.now() + within;
  while (Date.now() < end) {
    const there = await page.evaluate((wanted) => {
      interface Button {
        readonly disabled: boolean;
        readonly textContent: string;
        click(): void;
      }
      const { document } = globalThis as unknown as {
        document: {
          querySelector(css: string): (Button & { dataset: { phase?: string } }) | null;
          querySelectorAll(css: string): ArrayLike<Button>;
        };
      };
      if (document.querySelector('.floor')?.dataset.phase === wanted) return true;
      const main = document.querySelector('.act-main');
      const answer = document.querySelector('.question-card button');
      const call = Array.from(document.querySelectorAll('.act-others button')).find(({ textContent }) =>
        textContent.startsWith('Call '),
      );
      if (answer !== null) answer.click();
      else if (main !== null && !main.disabled && !main.textContent.startsWith('Stop')) main.click();
      else if (call !== undefined && !call.disabled) call.click();
      return false;
    }, phase);
    if (there) return;
    await page.waitForTimeout(120);
  }
  throw new Error(`the Floor did not come to ${phase}: ${await page.locator('.floor').textContent()}`);
}
