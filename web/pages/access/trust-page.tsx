import { phrasesOf } from '../../app/language.ts';
import { accessWords } from '../../../shared/messages/en/view/access.ts';
import './access.css';
import { accessPaths } from './access-api.ts';
import { type TrustPicture, TrustStep } from './trust-step.tsx';

const t = phrasesOf('access', accessWords);

const stepsNow = (): { picture: TrustPicture; title: string; text: string }[] => [
  {
    picture: 'warning',
    title: t('n_1_the_warning'),
    text: t('the_phone_does_not_know'),
  },
  {
    picture: 'compare',
    title: t('n_2_get_the_certificate_and'),
    text: t('download_the_certificate_below_before'),
  },
  {
    picture: 'install',
    title: t('n_3_install_it'),
    text: t('open_the_phones_settings_and'),
  },
  {
    picture: 'padlock',
    title: t('n_4_open_the_address_again'),
    text: t('some_phones_ask_for_full'),
  },
];

/** How a phone learns to trust the certificate authority of this machine. */
export default function TrustPage() {
  return (
    <>
      <h1>{t('let_this_phone_trust_the')}</h1>
      <p>{t('browsers_give_bluetooth_and_pages')}</p>
      <ol class="trust-steps">
        {stepsNow().map((step) => (
          <TrustStep key={step.picture} {...step} />
        ))}
      </ol>
      <p>
        <a class="button" href={accessPaths.authority} download>
          {t('download_the_certificate')}
        </a>
      </p>
      <p class="small quiet">{t('to_undo_it_remove_the')}</p>
    </>
  );
}
