// Evenings that look random and are the same in each run.

/** Numbers that look random and are the same in each run (Park and Miller, 1988). */
export function numbers(seed) {
  let state = seed;
  return (below) => {
    state = (state * 48271) % 2147483647;
    return state % below;
  };
}

const COUNTS = [1, 2, 3, 4, 6, 8, 10];
const RUNS = ["60", "80", "100", "120", "150", "200", "250", "300", "400", "600", "800", "1000", "flying 30", "1 lap", "110 hurdles"];
const WHERE = ["", "", "", "", " in lane 2", " in lanes 2-5", " on the back straight", " from the 400 m start"];
const RESTS = ["", ", 90 s", ", 3 min rest", ", walk back", ", jog 200", " @ 85%"];
const TRACKS = ["standard", "standard", "standard-6", "double-bend-1", "indoor-200", "oval-300", "yards-440"];
// What cannot be planned.
const WRONG_LINES = ["4 x 200 in lane 9", "2 oo", "6 x", "3 x 20000 in lane 1"];
const GROUPS = ["Sprinters", "Milers", "U13 girls"];
const NAMES = ["Ada", "Ben", "Cyd", "Dot", "Eli", "Fay", "Gus", "Élan", "<b>Kit</b>", "Max; 200", "\u202EIda", "=1+1", "O'Neil & <script>x</script>"];

/** One of a list. */
export const one = (pick, list) => list[pick(list.length)];

/** A line as a coach writes it; one of twenty is wrong. */
export const line = (pick) =>
  pick(20) === 0 ? one(pick, WRONG_LINES) : `${one(pick, COUNTS)} x ${one(pick, RUNS)}${one(pick, WHERE)}${one(pick, RESTS)}`;

/** A ground to run on, an evening on it, and what has changed. */
export function evening(pick) {
  const lines = (count) => Array.from({ length: count }, () => line(pick));
  const groups = one(pick, [0, 0, 2, 3]);
  const headings = GROUPS.slice(0, groups);
  const text = groups
    ? ["Tuesday 18:00-19:30", "warm-up 10 min", ...headings.flatMap((name) => [`${name}:`, ...lines(1 + pick(3))])].join("\n")
    : lines(1 + pick(3)).join("\n");
  const people = NAMES.slice(0, pick(NAMES.length));
  const squad = groups
    ? headings.map((name, at) => [`${name}:`, ...people.filter((_, n) => n % groups === at)].join("\n")).join("\n")
    : people.map((name) => `${name}, 200 ${24 + pick(9)}.${pick(10)}`).join("\n");
  const isSquad = people.length > 0 && pick(2) === 0;
  return {
    text,
    squad: isSquad ? squad : "",
    ground: { track: pick(20) === 0 ? "moon" : one(pick, TRACKS), closed: pick(2) === 0 ? [1 + pick(4)] : [] },
    late: {
      start: pick(4) === 0 ? `18:${10 + pick(50)}` : null,
      groups: groups && pick(4) === 0 ? [{ group: one(pick, headings), begins: `18:${10 + pick(50)}` }] : [],
      without: isSquad && pick(3) === 0 ? [one(pick, people)] : [],
      closed: pick(4) === 0 ? [1 + pick(4)] : [],
      wind: pick(5) === 0 ? "3 m/s against on the home straight" : null,
      skip: pick(8) === 0 ? [1 + pick(2)] : [],
    },
  };
}
