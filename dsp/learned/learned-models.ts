import type { Mounting } from '../../shared/words.ts';
import type { ContactModel, ContactModels } from './contact-model.ts';
import { decodeModel, type ModelFile } from './model-file.ts';
import footAccelerometer from './models/foot-accelerometer.json' with { type: 'json' };
import footGyroscope from './models/foot-gyroscope.json' with { type: 'json' };
import shankAccelerometer from './models/shank-accelerometer.json' with { type: 'json' };
import shankGyroscope from './models/shank-gyroscope.json' with { type: 'json' };
import trained from './models/trained.json' with { type: 'json' };

const FILES = [footGyroscope, shankGyroscope, footAccelerometer, shankAccelerometer] as unknown as ModelFile[];

const decoded = new Map<ModelFile, ContactModel>();

/** The models that ship with the project (models/, made by `npm run train`), each decoded when it is first asked for. */
export const LEARNED_MODELS: ContactModels = {
  version: trained.version,
  of(mounting: Mounting, channels: ContactModel['channels']): ContactModel | null {
    const file = FILES.find((each) => each.mounting === mounting && each.channels === channels);
    if (!file) return null;
    const model = decoded.get(file) ?? decodeModel(file);
    decoded.set(file, model);
    return model;
  },
};
