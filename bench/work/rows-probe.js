// Runs in the page before anything else. Tells how long what is done to a table takes until the frame that shows it was painted, ms.
(() => {
  const rows = () => [...document.querySelectorAll('main tbody tr')];
  const firstName = () => rows()[0]?.querySelector('th')?.textContent;

  const painted = () =>
    new Promise((done) => {
      // The task behind the next frame's callbacks is the first after that frame.
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => done(performance.now());
        port2.postMessage(0);
      });
    });

  /** Time of the first frame in which something holds. */
  const when = async (holds) => {
    await new Promise((done) => {
      if (holds()) return done();
      const observer = new MutationObserver(() => {
        if (!holds()) return;
        observer.disconnect();
        done();
      });
      observer.observe(document, { childList: true, subtree: true, characterData: true });
    });
    return painted();
  };

  const after = async (act, holds) => {
    const began = performance.now();
    const there = when(holds);
    act();
    return (await there) - began;
  };

  window.rowsProbe = {
    /** From the start of the navigation. */
    all: (count) => when(() => rows().length >= count),
    /** By the link to a page, from another one: until so many rows fill a screen, and until all are there. */
    come: async (path, some, all) => {
      const link = [...document.querySelectorAll('main a')].find(({ href }) => new URL(href).pathname === path);
      const began = performance.now();
      const times = [some, all].map((count) => when(() => rows().length >= count));
      link.click();
      return (await Promise.all(times)).map((at) => at - began);
    },
    /** By a heading, until somebody else comes first. */
    sort: (heading) => {
      const before = firstName();
      return after(
        () => document.querySelectorAll('main thead button')[heading].click(),
        () => firstName() !== before,
      );
    },
    /** By typing, until only names with it are left. */
    filter: (text) => {
      const field = document.querySelector('main input[type=search]');
      return after(
        () => {
          // As a key does: the value is set, and the page is told.
          Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, text);
          field.dispatchEvent(new Event('input', { bubbles: true }));
        },
        () => rows().length > 0 && rows().every((row) => row.querySelector('th').textContent.includes(text)),
      );
    },
  };
})();
