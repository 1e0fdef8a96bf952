import './access.css';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { AccessCode, AccessState, DeviceRole } from '../../../shared/schemas/access.ts';
import { useResource } from '../../app/use-resource.ts';
import { faultOf } from '../../client.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TableScroll } from '../../parts/table-scroll.tsx';
import { type Audit, accessApi, accessPaths, type Devices, ROLE_CHOICES } from './access-api.ts';
import { CodeCard } from './code-card.tsx';
import { ConfirmForm } from './confirm-form.tsx';
import { DeviceLine } from './device-line.tsx';

/** Devices that may reach this machine over the network: pairing, roles, revoking, and what they did. */
export default function DevicesPage() {
  const me = useResource<AccessState>(accessPaths.me);
  const devices = useResource<Devices>(accessPaths.devices);
  const [role, setRole] = useState<DeviceRole>('field');
  const [code, setCode] = useState<AccessCode | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  const away = me.value !== null && !me.value.here;
  const mayChange = me.value?.here === true || me.value?.confirmed_until_utc != null;

  const ask = (purpose: 'pair' | 'confirm') =>
    accessApi.code(purpose, purpose === 'pair' ? role : undefined).then(
      (issued) => {
        setFault(null);
        setCode(issued);
      },
      (error) => setFault(faultOf(error)),
    );

  return (
    <>
      <h1>Devices</h1>
      <p class="quiet">
        On this machine there is no log-in. Phones and tablets on the network are paired once, each with a role, and can
        be revoked here.
      </p>
      {fault && <FaultBox fault={fault} />}
      {away && <ConfirmForm me={me} />}
      {mayChange && (
        <section>
          <h2>Pair a device</h2>
          <SelectField
            label="It may use"
            value={role}
            options={ROLE_CHOICES.map(({ value, label, may }) => ({ value, label: `${label}: ${may}` }))}
            onChange={setRole}
          />
          <p class="button-row">
            <button type="button" class="primary" onClick={() => ask('pair')}>
              Show a pairing code
            </button>
            <button type="button" onClick={() => ask('confirm')}>
              Show a confirmation code
            </button>
          </p>
          {code && <CodeCard key={code.code} code={code} onEnd={() => devices.reload()} />}
        </section>
      )}
      <section>
        <h2>Paired devices</h2>
        <ResourceView resource={devices} name="devices">
          {({ items }) =>
            items.length === 0 ? (
              <EmptyState title="No device is paired">
                <p>
                  Start the server with <code>--lan</code> to let phones and tablets on the local network reach it.
                </p>
              </EmptyState>
            ) : (
              <ul class="lines">
                {items.map((device) => (
                  <DeviceLine
                    key={device.device_id}
                    device={device}
                    mayChange={mayChange && device.revoked_utc === null}
                    onChanged={devices.reload}
                    onFault={setFault}
                  />
                ))}
              </ul>
            )
          }
        </ResourceView>
      </section>
      {mayChange && <UseList />}
    </>
  );
}

function UseList() {
  const audit = useResource<Audit>(accessPaths.audit);
  return (
    <section>
      <h2>What devices did</h2>
      <p class="quiet small">Athletes stand here by their number, so that the list holds no names.</p>
      <ResourceView resource={audit} name="what devices did">
        {({ items }) =>
          items.length === 0 ? (
            <p>Nothing yet.</p>
          ) : (
            <TableScroll label="What devices did">
              <table>
                <thead>
                  <tr>
                    <th>when</th>
                    <th>device</th>
                    <th>what</th>
                    <th>athlete</th>
                    <th>operation</th>
                  </tr>
                </thead>
                <tbody>
                  {items.map((entry) => (
                    <tr key={entry.audit_id}>
                      <td>{new Date(entry.at_utc).toLocaleString()}</td>
                      <td>{entry.device}</td>
                      <td>{entry.action}</td>
                      <td>{entry.athlete_id ?? 'several'}</td>
                      <td>
                        <code>{entry.operation}</code>
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </TableScroll>
          )
        }
      </ResourceView>
    </section>
  );
}
