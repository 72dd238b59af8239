import { call, type Lab, type LabId, routes } from '@sthene/contract';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { stationQuery } from './queries.ts';
import { base, fetcher } from './station.ts';

/** Sets a lab up, or builds the example; while that runs the station tells its progress. */
export function useCreateLab(id: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (name?: string): Promise<Lab> =>
      call(fetcher, base, routes.createLab, { params: { lab: id }, body: name === undefined ? {} : { name } }),
    onSettled: () =>
      Promise.all([
        client.invalidateQueries({ queryKey: stationQuery().queryKey }),
        client.invalidateQueries({ queryKey: ['sessions', id] }),
      ]),
  });
}
