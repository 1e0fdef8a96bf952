import type { Reason } from '../../shared/reason-shape.ts';

/** One contact of one foot, on its sensor's clock. Standard uncertainties are one standard deviation. */
export interface FootContact {
  touchdown_s: number;
  toe_off_s: number | null;
  touchdown_raw_s: number;
  toe_off_raw_s: number | null;
  touchdown_s_u: number;
  toe_off_s_u: number | null;
  /** Uncertainty of the contact time itself: part of the two instants' errors is shared. */
  contact_time_s_u: number | null;
  /** The part of it that changes from contact to contact of one foot; the rest is the same for all of them. */
  contact_time_s_repeatable_u: number | null;
  /** Slowest rotation of mid-contact: the foot's instant of rest, for integrating from contact to contact. */
  mid_contact_s: number;
  confidence: number;
  /** A channel sat at its full scale during this contact. */
  clipped: boolean;
  /** Samples were lost within reach of an event. */
  lost: boolean;
  /** Peak forward rate of the swings before and after, rad/s; null at the ends of the recording or without gyroscope. */
  swing_before_radps: number | null;
  swing_after_radps: number | null;
  /** Stride this contact lies in, mid-swing to mid-swing, s; null without gyroscope. */
  stride_s: number | null;
  /** From the leg's turn backward, before touchdown, to toe-off, s; null without gyroscope. */
  backward_s: number | null;
  /** How far the segment turned in it, rad; null without gyroscope. */
  turn_rad: number | null;
  reasons: Record<string, Reason>;
}

/** Columns about one contact that its shape is read from; sample i lies at `start_s + i / rate_hz` on the sensor's clock. */
export interface ShapeColumns {
  rate_hz: number;
  start_s: number;
  /** Stride that the contact lies in, s. */
  stride_s: number;
  /** The first changes most; its slope belongs to the shape as well. */
  columns: readonly Float64Array[];
  /** What each column is multiplied by: a rate of turning by the stride time, so that pace drops out. */
  factors: readonly number[];
}

/** A contact as the first stage finds it, with what the second stage (../learned) judges it by. */
export interface FoundContact {
  contact: FootContact;
  shape: ShapeColumns;
  /** 0 to 1: how far a sharp impact dates the touchdown; 1: alone. */
  sharp: number;
  /** Part of the uncertainties that losses and clipping bring, s: nothing learned takes it away. */
  lost_u_s: { touchdown: number; toe_off: number };
}
