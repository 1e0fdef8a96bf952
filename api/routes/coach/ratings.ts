import { Type } from 'typebox';
import { Rating, RatingBody } from '../../../shared/schemas/coach/field-view.ts';
import { FilmTie, FilmTieBody } from '../../../shared/schemas/coach/film.ts';
import { Done, FaultAnswer, Id, listOf } from '../../../shared/schemas/common.ts';
import {
  deleteRatingPhoto,
  getRatingPhoto,
  LARGEST_PHOTO_BYTES,
  setRatingPhoto,
} from '../../coach/judgement/rating-photos.ts';
import { listFilmTies, setFilmTie } from '../../coach/film/film-ties.ts';
import { listRatings, setRating } from '../../coach/judgement/ratings.ts';
import type { ApiRoutes } from '../../http/context.ts';

const tags = ['coach'];
const ofRepetition = Type.Object({ repetition_id: Id });
const ofRating = Type.Object({ repetition_id: Id, aspect: Type.String({ maxLength: 60 }) });
const photoPath = '/coach/repetitions/:repetition_id/ratings/:aspect/photo';

export const ratingRoutes: ApiRoutes = async (app, { store }) => {
  app.addContentTypeParser(/^image\//, { parseAs: 'buffer', bodyLimit: LARGEST_PHOTO_BYTES }, (_request, body, done) =>
    done(null, body),
  );

  app.get(
    '/coach/repetitions/:repetition_id/ratings',
    { schema: { tags, params: ofRepetition, response: { 200: listOf(Rating), default: FaultAnswer } } },
    async ({ params }) => ({ items: listRatings(store, params.repetition_id) }),
  );

  app.put(
    '/coach/repetitions/:repetition_id/ratings/:aspect',
    { schema: { tags, params: ofRating, body: RatingBody, response: { 200: listOf(Rating), default: FaultAnswer } } },
    async ({ params, body }) => ({ items: setRating(store, params.repetition_id, params.aspect, body) }),
  );

  app.put(
    photoPath,
    {
      schema: {
        tags,
        params: ofRating,
        consumes: ['image/jpeg', 'image/png', 'image/webp'],
        summary: 'Keeps a photograph beside a rating; the body is the picture',
        response: { 200: Done, default: FaultAnswer },
      },
    },
    async ({ params, body }) => {
      setRatingPhoto(store, params.repetition_id, params.aspect, Buffer.isBuffer(body) ? body : Buffer.alloc(0));
      return { ok: true as const };
    },
  );

  app.get(
    photoPath,
    {
      schema: {
        tags,
        params: ofRating,
        /** Changes with the picture, so that a browser does not show the one before. */
        querystring: Type.Object({ shown: Type.Optional(Type.String({ maxLength: 100 })) }),
      },
    },
    async ({ params }, reply) => {
      const photo = getRatingPhoto(store, params.repetition_id, params.aspect);
      return reply.type(photo.media_type).header('cache-control', 'private, no-cache').send(photo.bytes);
    },
  );

  const filmPath = '/coach/repetitions/:repetition_id/films';
  const films = { 200: listOf(FilmTie), default: FaultAnswer };
  app.get(filmPath, { schema: { tags, params: ofRepetition, response: films } }, async ({ params }) => ({
    items: listFilmTies(store, params.repetition_id),
  }));

  app.put(
    filmPath,
    {
      schema: {
        tags,
        params: ofRepetition,
        summary: 'Keeps how a film is tied to a repetition; the film itself stays on its device',
        body: FilmTieBody,
        response: films,
      },
    },
    async ({ params, body }) => ({ items: setFilmTie(store, params.repetition_id, body) }),
  );

  app.delete(
    photoPath,
    { schema: { tags, params: ofRating, response: { 200: Done, default: FaultAnswer } } },
    async ({ params }) => {
      deleteRatingPhoto(store, params.repetition_id, params.aspect);
      return { ok: true as const };
    },
  );
};
