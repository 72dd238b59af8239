import { call, type LabId, protocolRoutes, type SessionView } from '@sthene/contract';
import { type ProtocolDocument, protocolRegistry, type SetupField } from '@sthene/core';
import { queryOptions, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

export const protocolsQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['protocols', lab],
    queryFn: () => call(fetcher, base, protocolRoutes.protocols, { params: { lab } }),
  });

export const protocolQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['protocol', lab, id],
    queryFn: () => call(fetcher, base, protocolRoutes.protocol, { params: { lab, id } }),
  });

export const protocolUseQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['protocol-use', lab, id],
    queryFn: () => call(fetcher, base, protocolRoutes.protocolUse, { params: { lab, id } }),
  });

/** The setup fields a session was held with: those of the version it was run by, else those of its test. */
export function useSetupFieldsOf(
  lab: LabId,
  { protocol, ranBy }: Pick<SessionView, 'protocol' | 'ranBy'>,
): readonly SetupField[] {
  const found = useQuery({ ...protocolQuery(lab, ranBy?.sha256 ?? ''), enabled: ranBy !== undefined });
  const version = found.data?.versions.find(({ sha256 }) => sha256 === ranBy?.sha256)?.document;
  return (version as ProtocolDocument | undefined)?.setupFields ?? protocolRegistry.get(protocol)?.setupFields ?? [];
}

type Sent = Record<string, unknown>;

export type ProtocolAct =
  | { kind: 'create'; document: Sent; by: string }
  | { kind: 'succeed'; id: string; document: Sent; after: string; by: string }
  | { kind: 'archive'; id: string; archived: boolean; by: string }
  | { kind: 'import'; document: Sent; by: string };

/** Everything that adds to or puts away a protocol; the answer is the protocol as it then stands. */
export function useProtocolAct(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (act: ProtocolAct) => {
      switch (act.kind) {
        case 'create':
          return call(fetcher, base, protocolRoutes.createProtocol, {
            params: { lab },
            body: { document: act.document, by: act.by },
          });
        case 'succeed':
          return call(fetcher, base, protocolRoutes.succeedProtocol, {
            params: { lab, id: act.id },
            body: { document: act.document, after: act.after, by: act.by },
          });
        case 'archive':
          return call(fetcher, base, protocolRoutes.archiveProtocol, {
            params: { lab, id: act.id },
            body: { archived: act.archived, by: act.by },
          });
        case 'import':
          return call(fetcher, base, protocolRoutes.importProtocol, {
            params: { lab },
            body: { document: act.document, by: act.by },
          });
      }
    },
    onSuccess: async (view) => {
      client.setQueryData(['protocol', lab, view.id], view);
      await client.invalidateQueries({ queryKey: ['protocols', lab] });
    },
  });
}
