import type { PhraseRoom } from '../../sentence.ts';

/** Studies: consent, exports, agreement. */
export const researchWords = {
  the_sensor_files_clock: "the sensor file's clock",
  a_clock_of_its_own: 'a clock of its own',
  agreement: 'Agreement',
  bring_the_contacts_that_a:
    'Bring the contacts that a force plate, photocells or video saw: a CSV a repetition with the columns side, touchdown_s, toe_off_s and step_length_m; what the reference does not know stays empty.',
  reference_files: 'Reference files',
  reference_times_run_on: 'Reference times run on',
  of_reference_contacts_found_missed: ({
    matched,
    reference,
    missed,
    extra,
  }: {
    matched: number;
    reference: number;
    missed: number;
    extra: number;
  }) => `${matched} of ${reference} reference contacts found, ${missed} missed, ${extra} extra.`,
  save_report_pdf: 'Save report (PDF)',
  save_figures_csv: 'Save figures (CSV)',
  save_every_pair_csv: 'Save every pair (CSV)',
  to: ({ value, low, high }: { value: string; low: string; high: string }) => `${value} (${low} to ${high})`,
  bias_95_interval: 'bias (95 % interval)',
  standard_deviation: 'standard deviation',
  limits_of_agreement: 'limits of agreement',
  and: ({ lower_limit, upper_limit }: { lower_limit: string; upper_limit: string }) =>
    `${lower_limit} and ${upper_limit}`,
  mean_absolute_error: 'mean absolute error',
  typical_error: 'typical error',
  about_an_athletes_own_bias: "about an athlete's own bias",
  to_2: ({ lower, upper }: { lower: string; upper: string }) => `${lower} to ${upper}`,
  athletes_biases: "athletes' biases",
  stated_95_intervals_hold: 'stated 95 % intervals hold',
  pairs_athletes_differences_are_ours: ({
    pairs,
    athletes,
    method,
  }: {
    pairs: number;
    athletes: number;
    method: string;
  }) => `${pairs} pairs, ${athletes} athletes; ${method}. Differences are ours minus the reference.`,
  agreement_of: ({ quantity }: { quantity: string }) => `Agreement of ${quantity}`,
  not_asked: 'not asked',
  given: 'given',
  refused: 'refused',
  withdrawn: 'withdrawn',
  not_recorded: 'not recorded',
  consent: 'consent',
  contract: 'contract',
  task_in_the_public_interest: 'task in the public interest',
  legitimate_interest: 'legitimate interest',
  add_them_under: 'Add them under ',
  consent_of: ({ name }: { name: string }) => `Consent of ${name}`,
  since: ({ status_date }: { status_date: string }) => `since ${status_date}`,
  nothing_recorded: 'nothing recorded',
  a_minor_who_has_parental: ({ since }: { since: string }) =>
    `${since}; a minor: who has parental responsibility is not recorded`,
  decided_by: ({ since, guardian }: { since: string; guardian: string }) => `${since}; decided by ${guardian}`,
  legal_basis_and_guardian: 'Legal basis and guardian',
  of: ({ name }: { name: string }) => ` of ${name}`,
  legal_basis: 'Legal basis',
  guardian_who_decided: 'Guardian who decided',
  for_minors_local_law_says: 'For minors. Local law says from what age on they decide themselves.',
  save_guardian: 'Save guardian',
  differences_from_the_reference_over: ({ quantity }: { quantity: string }) =>
    `${quantity}: differences from the reference over their means`,
  instant_in_the_recording_s: 'instant in the recording, s',
  mean_of_both: ({ unit }: { unit: string }) => `mean of both, ${unit}`,
  line_bias_dashes_limits_of: 'Line: bias. Dashes: limits of agreement. Round: left, square: right.',
  repeatability: 'Repeatability',
  each_athletes_mean_of_a:
    "Each athlete's mean of a session is a trial. Choose sessions between which nothing should have changed.",
  least_effort_per_cent: 'Least effort, per cent',
  sessions_from: 'Sessions from',
  sessions_to: 'Sessions to',
  compare_sessions: 'Compare sessions',
  typical_error_2: ({ typical_error }: { typical_error: string }) => `Typical error ${typical_error} `,
  one_athletes_change_beyond_is: ({
    percent,
    minimal_detectable_change,
  }: {
    percent: string;
    minimal_detectable_change: string;
  }) => `${percent}; one athlete's change beyond ${minimal_detectable_change} is more than chance.`,
  to_to_change_of_the: ({
    form,
    value,
    low,
    high,
    model,
    form_2,
    value_2,
    low_2,
    high_2,
    model_2,
    mean_change,
  }: {
    form: string;
    value: string;
    low: string;
    high: string;
    model: string;
    form_2: string;
    value_2: string;
    low_2: string;
    high_2: string;
    model_2: string;
    mean_change: string;
  }) =>
    `${form} ${value} (${low} to ${high}): ${model}. ${form_2} ${value_2} (${low_2} to ${high_2}): ${model_2}. Change of the mean ${mean_change}. Hopkins 2000, Sports Med 30:1-15.`,
  left_out_with_one_session: ({ left_out }: { left_out: string }) => ` Left out with one session only: ${left_out}.`,
  means_of_the_sessions: 'Means of the sessions',
  session: ({ k }: { k: number }) => `session ${k}`,
  session_of: ({ name }: { name: string }) => `Session of ${name}`,
  repetition_of: ({ name }: { name: string }) => `Repetition of ${name}`,
  repetition: ({ name, order_number }: { name: string; order_number: number }) => `${name}, repetition ${order_number}`,
  research: 'Research',
  data_for_studies_every_contact:
    'Data for studies: every contact with its uncertainty, documented, under pseudonyms. Check sensors against a force plate under ',
  consent_2: 'Consent',
  only_athletes_whose_consent_is:
    'Only athletes whose consent is given are exported. For minors a responsible adult decides as well; local rules come first.',
  consents: 'consents',
  exports_made: 'Exports made',
  exports: 'exports',
  tables_csv_and_parquet: 'tables (CSV and Parquet)',
  raw_signals_motion_bids: 'raw signals (Motion-BIDS)',
  pseudonyms_for_partners_under_an: 'pseudonyms: for partners under an agreement',
  open_for_publishing_dates_bodies: 'open: for publishing; dates, bodies and weather cannot be told',
  new_export: 'New export',
  what: 'What',
  level: 'Level',
  move_each_athletes_dates_by: "Move each athlete's dates by an amount of their own",
  with_notes_and_titles_as: 'With notes and titles as written; they may name people',
  with_names_instead_of_pseudonyms: 'With names instead of pseudonyms: for use inside the club only',
  make_export: 'Make export',
  athletes_repetitions_contacts: ({
    athletes,
    repetitions,
    contacts,
  }: {
    athletes: number;
    repetitions: number;
    contacts: number;
  }) => `${athletes} athletes, ${repetitions} repetitions, ${contacts} contacts`,
  athletes_without_consent_left_out: ({ left_out }: { left_out: number }) =>
    `; ${left_out} athletes without consent left out`,
  save_the_archive: 'Save the archive',
  none_yet_each_one_is: 'None yet. Each one is recorded here: what, when, how much.',
  made: 'made',
  contacts: 'contacts',
  archive: 'archive',
  export: ({ export_id }: { export_id: number }) => ` export ${export_id}`,
  still_needed: 'Still needed?',
  athletes_without_a_session_for:
    'Athletes without a session for a year. Keep them for another year, or erase them on their page; nothing is erased by itself.',
  nobody_at_present: 'Nobody at present.',
  last_session: ({ last_session_date }: { last_session_date: string }) => `last session ${last_session_date}`,
  no_session: 'no session',
  deleted_but_all_is_still: '; deleted, but all is still there',
  keep_a_year: 'Keep a year',
  the_data_of: ({ name }: { name: string }) => ` the data of ${name}`,
  erase: 'Erase …',
  tables: 'tables',
} as const satisfies PhraseRoom;
