import { type AccessView, accessRoutes, call, type LabId, type LiveRole } from '@sthene/contract';
import { queryOptions, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

/** The station's own screen: without TLS it answers under these names only, and may do everything. */
export const onStation = (host: string = location.hostname): boolean =>
  ['localhost', '127.0.0.1', '[::1]'].includes(host);

const theStation: AccessView = { place: 'station' };

/** Who this browser is to the station. Asked again and again on other devices, so that one taken off says so. */
export const accessQuery = () =>
  queryOptions({
    queryKey: ['access'],
    queryFn: () => (onStation() ? theStation : call(fetcher, base, accessRoutes.access)),
    ...(onStation() ? { initialData: theStation, staleTime: Number.POSITIVE_INFINITY } : { refetchInterval: 5_000 }),
  });

export const useAccess = () => useQuery(accessQuery());

interface Address {
  readonly method: string;
  readonly path: string;
}

/** Whether this browser may ask for an address, by the station's own table; it is asked only so that nothing is offered in vain. */
export const mayAsk = ({ place, may = [] }: AccessView, { method, path }: Address): boolean =>
  place === 'station' || may.includes(`${method} ${path}`);

/** The same for the screens; before the station has said who this is, nothing. */
export function useMay(): (address: Address) => boolean {
  const { data } = useAccess();
  return (address) => data !== undefined && mayAsk(data, address);
}

/** Where a device goes when it has nowhere else to go. */
export const homeOf = ({ lab, role }: { readonly lab: LabId; readonly role: LiveRole }): string =>
  `/${lab}/${{ operator: 'day', viewer: 'sessions', wall: 'wall/choose' }[role]}`;

export function usePair() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (code: string) => call(fetcher, base, accessRoutes.pair, { body: { code } }),
    onSuccess: (access) => client.setQueryData(['access'], access),
  });
}

export const devicesQuery = (lab: LabId, every: number) =>
  queryOptions({
    queryKey: ['devices', lab],
    queryFn: () => call(fetcher, base, accessRoutes.devices, { params: { lab } }),
    refetchInterval: every,
  });

export const networkQuery = () =>
  queryOptions({
    queryKey: ['network'],
    queryFn: () => call(fetcher, base, accessRoutes.network),
    refetchInterval: 15_000,
  });

export function useSwitchNetwork() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (body: { on: boolean; by: string }) => call(fetcher, base, accessRoutes.switchNetwork, { body }),
    onSuccess: (network) => client.setQueryData(['network'], network),
  });
}

export type DeviceAct =
  | { kind: 'rename'; id: string; name: string; by: string }
  | { kind: 'revoke'; id: string; by: string }
  | { kind: 'withdraw'; id: string };

export function useDeviceAct(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: async (act: DeviceAct) => {
      const params = { lab, id: act.id };
      if (act.kind === 'withdraw') await call(fetcher, base, accessRoutes.withdrawCode, { params });
      else if (act.kind === 'revoke')
        await call(fetcher, base, accessRoutes.revokeDevice, { params, body: { by: act.by } });
      else await call(fetcher, base, accessRoutes.renameDevice, { params, body: { name: act.name, by: act.by } });
    },
    onSettled: () => client.invalidateQueries({ queryKey: ['devices', lab] }),
  });
}

export function useMakeCode(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (body: { name: string; role: LiveRole; by: string }) =>
      call(fetcher, base, accessRoutes.makeCode, { params: { lab }, body }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['devices', lab] }),
  });
}
