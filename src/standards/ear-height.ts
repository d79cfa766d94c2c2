/** A loudspeaker is not sent further over or under the ears than this, seen from the seat: a choice of ours, no source. */
export const MOST_OFF_EARS_DEG = 15;
