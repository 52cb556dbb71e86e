/** Whether a thing was seen; the third value is for when nobody could have told. */
export type Seen = 'seen' | 'not-seen' | 'unknown';
