import { pageTitle } from '../../app/page-title.ts';
import { LookAndLanguage } from '../../parts/look-and-language.tsx';

/** How an archive's pages look on this device. */
export default function LookPage() {
  return (
    <>
      <h1>{pageTitle('Look and language')}</h1>
      <LookAndLanguage />
    </>
  );
}
