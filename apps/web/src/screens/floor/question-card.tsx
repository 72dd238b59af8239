import type { QuestionView } from '@sthene/contract';
import { useEffect, useRef } from 'react';
import { liveWords as words } from '../../words/live.ts';

export interface QuestionCardProps {
  readonly question: QuestionView;
  readonly mayAnswer: boolean;
  readonly onAnswer: (choice: string) => void;
  readonly onTake: () => void;
}

/** A question that must be answered before anything goes on. It stands over the curve; stop and pain stop stay reachable. */
export function QuestionCard({ question, mayAnswer, onAnswer, onTake }: QuestionCardProps) {
  const card = useRef<HTMLElement>(null);
  useEffect(() => card.current?.focus(), []);
  return (
    <section ref={card} className="question-card" role="alertdialog" aria-labelledby="floor-question" tabIndex={-1}>
      <h2 className="small soft">{words.question}</h2>
      <p id="floor-question">{question.words}</p>
      <div className="question-acts">
        {mayAnswer ? (
          question.choices.map(({ id, words: text }) => (
            <button key={id} type="button" className="button big" onClick={() => onAnswer(id)}>
              {text}
            </button>
          ))
        ) : (
          <>
            <p>{words.answerNeedsControls}</p>
            <button type="button" className="button big" onClick={onTake}>
              {words.act.take}
            </button>
          </>
        )}
      </div>
    </section>
  );
}
