import './access.css';
import { accessPaths } from './access-api.ts';
import { type TrustPicture, TrustStep } from './trust-step.tsx';

const STEPS: { picture: TrustPicture; title: string; text: string }[] = [
  {
    picture: 'warning',
    title: '1. The warning',
    text: 'The phone does not know this machine yet, so its browser warns. Go on to the page anyway, this once: the way lies behind "details" or "advanced".',
  },
  {
    picture: 'compare',
    title: '2. Get the certificate and compare',
    text: 'Download the certificate below. Before you trust it, compare its SHA-256 with the one that the machine itself shows under Devices and in its terminal. They must be the same, all of it.',
  },
  {
    picture: 'install',
    title: '3. Install it',
    text: "Open the phone's settings and look for certificates (mostly under security, or as a downloaded profile). Install the file as a certificate authority.",
  },
  {
    picture: 'padlock',
    title: '4. Open the address again',
    text: 'Some phones ask for full trust to be switched on for it in a list of trusted certificates. Then the warning is gone, the sensors can be reached from the browser, and the page can be kept on the home screen.',
  },
];

/** How a phone learns to trust the certificate authority of this machine. */
export default function TrustPage() {
  return (
    <>
      <h1>Let this phone trust the machine</h1>
      <p>
        Browsers give Bluetooth and pages for offline use to addresses they trust. This machine has made a certificate
        authority of its own; it can vouch for addresses of private networks only, never for a site on the internet.
      </p>
      <ol class="trust-steps">
        {STEPS.map((step) => (
          <TrustStep key={step.picture} {...step} />
        ))}
      </ol>
      <p>
        <a class="button" href={accessPaths.authority} download>
          Download the certificate
        </a>
      </p>
      <p class="small quiet">
        To undo it, remove the certificate in the phone's settings. The key never leaves the machine that Cinderlane
        runs on.
      </p>
    </>
  );
}
