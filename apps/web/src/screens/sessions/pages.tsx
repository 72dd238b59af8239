import { Icon } from '../../parts/icon.tsx';
import { sessionWords } from '../../words/session-list.ts';
import { pageSize } from './use-session-filter.ts';

/** Newer and older pages of the list. */
export function Pages({ page, total, onPage }: { page: number; total: number; onPage: (page: number) => void }) {
  const t = sessionWords.pages;
  const last = Math.max(1, Math.ceil(total / pageSize));
  const go = (to: number) => {
    onPage(to);
    scrollTo({ top: 0 });
  };
  return (
    <nav className="pages" aria-label={t.label}>
      <button type="button" className="button" disabled={page <= 1} onClick={() => go(page - 1)}>
        <Icon name="left" size={16} />
        {t.before}
      </button>
      <span className="number">{t.range((page - 1) * pageSize + 1, Math.min(total, page * pageSize), total)}</span>
      <button type="button" className="button" disabled={page >= last} onClick={() => go(page + 1)}>
        {t.next}
        <Icon name="right" size={16} />
      </button>
    </nav>
  );
}
