import { phrasesOf } from '../../app/language.ts';
import { accessWords } from '../../../shared/messages/en/view/access.ts';
import { useEffect, useState } from 'preact/hooks';
import type { AccessCode } from '../../../shared/schemas/access.ts';

const t = phrasesOf('access', accessWords);

/** A code as large as it can be read across a table, its QR code, and the time it has left. */
export function CodeCard({ code, onEnd }: { code: AccessCode; onEnd: () => void }) {
  const left = useSecondsLeft(code.expires_utc);
  useEffect(() => {
    if (left === 0) onEnd();
  }, [left === 0]);
  if (left === 0) return <p role="status">{t('the_code_has_run_out')}</p>;
  return (
    <div class="card access-code" role="status">
      <p>{code.purpose === 'pair' ? t('open_the_address_on_the') : t('type_this_on_the_device')}</p>
      {code.qr_svg && (
        <img
          class="access-qr"
          alt={t('qr_code_of', { what: code.links[0] })}
          src={`data:image/svg+xml,${encodeURIComponent(code.qr_svg)}`}
        />
      )}
      <p class="access-digits">{`${code.code.slice(0, 3)} ${code.code.slice(3)}`}</p>
      <p class="small">
        {t('s_left_five_tries_one', { left })}
        {code.links.map((link) => (
          <span key={link} class="access-link">
            {link}
          </span>
        ))}
      </p>
      {code.purpose === 'pair' && code.links.length === 0 && (
        <p>
          {t('this_server_listens_on_this')}
          <code>--lan</code>
          {t('to_let_devices_reach_it')}
        </p>
      )}
      {code.ca_fingerprint && (
        <p class="small quiet access-link">
          {t('certificate_authority_of_this_machine', { fingerprint: code.ca_fingerprint })}
        </p>
      )}
    </div>
  );
}

function useSecondsLeft(expires_utc: string): number {
  const leftNow = () => Math.max(0, Math.ceil((Date.parse(expires_utc) - Date.now()) / 1000));
  const [left, setLeft] = useState(leftNow);
  useEffect(() => {
    const timer = setInterval(() => setLeft(leftNow()), 1000);
    return () => clearInterval(timer);
  }, [expires_utc]);
  return left;
}
