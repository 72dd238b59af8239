import { useState } from 'react';
import { useNavigate } from 'react-router';
import { usePracticeDay } from '../../data/days.ts';
import { useCreateLab } from '../../data/labs.ts';
import { usePreference } from '../../data/use-preference.ts';
import { guest } from '../../parts/signed.tsx';

/** Opens a practice day of the example squad; the squad is made first where it is not there yet. */
export function usePractice(exists: boolean) {
  const navigate = useNavigate();
  const build = useCreateLab('example');
  const practice = usePracticeDay();
  const [name] = usePreference('signed-as');
  const [wanted, setWanted] = useState(false);
  const begin = async () => {
    setWanted(true);
    try {
      if (!exists) await build.mutateAsync(undefined);
      const day = await practice.mutateAsync(name || guest);
      void navigate(`/example/day/${day.id}`);
    } catch {
      setWanted(false);
    }
  };
  return {
    begin,
    pending: wanted && (build.isPending || practice.isPending),
    error: build.error ?? practice.error ?? undefined,
  };
}
