import type { ReactNode } from 'react';

/** One card of the list. */
export function Choice({
  title,
  text,
  mark,
  main,
  children,
}: {
  title: string;
  text: string;
  mark?: ReactNode;
  main?: boolean;
  children: ReactNode;
}) {
  return (
    <li className="choice" data-main={main === true}>
      <h2>
        {title} {mark}
      </h2>
      <p>{text}</p>
      <div className="choice-act">{children}</div>
    </li>
  );
}
