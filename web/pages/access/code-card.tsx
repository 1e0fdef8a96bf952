import { useEffect, useState } from 'preact/hooks';
import type { AccessCode } from '../../../shared/schemas/access.ts';

/** A code as large as it can be read across a table, its QR code, and the time it has left. */
export function CodeCard({ code, onEnd }: { code: AccessCode; onEnd: () => void }) {
  const left = useSecondsLeft(code.expires_utc);
  useEffect(() => {
    if (left === 0) onEnd();
  }, [left === 0]);
  if (left === 0) return <p role="status">The code has run out. Ask for another one.</p>;
  return (
    <div class="card access-code" role="status">
      <p>
        {code.purpose === 'pair'
          ? 'Open the address on the device, or point its camera here:'
          : 'Type this on the device:'}
      </p>
      {code.qr_svg && (
        <img
          class="access-qr"
          alt={`QR code of ${code.links[0]}`}
          src={`data:image/svg+xml,${encodeURIComponent(code.qr_svg)}`}
        />
      )}
      <p class="access-digits">{`${code.code.slice(0, 3)} ${code.code.slice(3)}`}</p>
      <p class="small">
        {left} s left, five tries, one device.
        {code.links.map((link) => (
          <span key={link} class="access-link">
            {link}
          </span>
        ))}
      </p>
      {code.purpose === 'pair' && code.links.length === 0 && (
        <p>
          This server listens on this machine only. Start it with <code>--lan</code> to let devices reach it.
        </p>
      )}
      {code.ca_fingerprint && (
        <p class="small quiet access-link">Certificate authority of this machine, SHA-256: {code.ca_fingerprint}</p>
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
