import { createContext, type ReactNode, useCallback, useContext, useRef, useState } from 'react';
import './status.css';

const Say = createContext<(words: string) => void>(() => {});

/** Announces short messages (saved, copied) politely and shows them for a few seconds. */
export function StatusLine({ children }: { children: ReactNode }) {
  const [message, setMessage] = useState('');
  const timer = useRef(0);
  const say = useCallback((words: string) => {
    clearTimeout(timer.current);
    setMessage(words);
    timer.current = setTimeout(() => setMessage(''), 5000) as unknown as number;
  }, []);
  return (
    <Say.Provider value={say}>
      {children}
      <p className="status-line" role="status" data-shown={message !== ''}>
        {message}
      </p>
    </Say.Provider>
  );
}

export const useSay = () => useContext(Say);
