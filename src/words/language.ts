/** The English that free text is read with: function words only. What a phrase means stands in the rules. */
const set = (words: string): ReadonlySet<string> => new Set(words.split(/\s+/).filter((w) => w !== ''));

/** Words that carry no sign; dropped from the phrases and never looked up. */
export const FILLERS = set(`
 a also always am an and any anything are as at be because been being bit
 but could did do does doing done either else even ever for
 from get gets goes going had has have having he her here him his how i i'd i'm i've if in into is
 it it's its just kind lot made make makes maybe me mine my myself of on or our pretty
 quite rather really seem seems she should so some something sometimes somewhat sort such than that that's the
 their them then there there's these they thing things this those though to very was we were what when
 where which while who why will with would you your yourself`);

/** Numbers that riders say in words. */
export const NUMBER_WORDS: ReadonlyMap<string, number> = new Map(
  'one two three four five six seven eight nine ten'
    .split(' ')
    .map((word, i) => [word, i + 1] as const)
    .concat([
      ['couple', 2],
      ['a', 1],
      ['another', 1],
    ]),
);

/** Small words that count inside a concept: "into corners" is not "corners". Forms of one word stand together. */
export const COUNTS_IN_CONCEPT: ReadonlyMap<string, string> = new Map(
  [
    ['in'],
    ['into'],
    ['of'],
    ['on'],
    ['to'],
    ['from'],
    ['through'],
    ['at'],
    ['than'],
    ['get', 'gets', 'getting', 'got'],
    ['go', 'goes', 'going', 'gone', 'went'],
    ['as'],
    ['with'],
    ['for'],
    ['by'],
    ['me'],
    ['some'],
    ['then'],
    ['had'],
    // "Did nothing" is no bare "nothing", which every denial is.
    ['do', 'does', 'did', 'doing'],
  ].flatMap((forms) => forms.map((form) => [form, `~${forms[0]!}`] as const)),
);

/**
 * Bare forms that are words of their own beside their stem: "the bottom" of a track is no "bottoms out", a pogo stick
 * does not stick, rocking the bike is no rock; what is knocked off its line does not knock, a knob turned in is in no
 * turn, a stretch of track is not stretched, the lowers of a fork are not lower, pedals are no pedalling, a dip is called a
 * compression, the rebound of a damper throws nobody, and a proper jump is not done properly.
 */
export const OWN_WORD: ReadonlyMap<string, string> = new Map([
  ['bottom', 'bottom-place'],
  ['stick', 'stick-thing'],
  ['rocking', 'rock-about'],
  ['rocked', 'rock-about'],
  ['knocked', 'knocked-off'],
  ['turned', 'turned-to'],
  ['stretch', 'stretch-of'],
  ['stretches', 'stretch-of'],
  ['lowers', 'lowers-of'],
  ['pedals', 'pedals-of'],
  ['compression', 'compression-of'],
  ['compressions', 'compression-of'],
  ['rebound', 'rebound-of'],
  ['properly', 'properly-done'],
]);

/** Words of every day that are one slip away from a word of the phrases and must not be taken for it. */
export const NO_SLIP = set(`
  after all before every everything whole back bike bikes black block board brand break bring broke broker bush came chain clear close code corner course crew day deep
  drip east feet fell fire first five font four fresh friend from frost gear give good great hand hang heal
  heel hire hold home hope house just kids know large last late later least left life like line list live long
  look lose lost main many most move near need never next nice nine only other over part place plan play point
  race rain read real ride rider rides riding right road room round same seat send seven share shore show side
  sleep sheep small smart some song soon staff stage stand stars start state stay still stock stop store stuff
  style such sure take talk test text than thank then they thin think three time times today told took track
  trail tree tried turn under until used user value want water week well went were wet white wide wife wind
  with word work world year young
  alone among backfire battery beginner blame boots boring bought brave brief brought brush budget buddy bubble bubbly
  charge charged chore claps class collect collected complain complained complains converted cooked cope copes cream
  creased crept decent doubt driver eaten faces facing flared flowy forest forget forgets forgive forgiving forty fifty
  frosty froze grand grass grease greased greasy grippier hear hears hearing heave heaves hide hides hotel hurry joking
  leant linger lingers march marker miles mineral model mouth notch outer paint patch patches peace pinky provision
  pucks readily redid river rocker rusty rust scarred shade shape shaped shift shifts shifting shook shrunk silly singing
  sixty sized sizes slack slackened sleepy sleeve slick sliced snack snappy soles sorry sort sorts sorted space spill
  spite squish stalls steadily steel stony story stuffed suit suits super sweet sweets tenth tester testing thick thirty
  thread threads threw tilt tilted tilts tools train training transition treat tuned tuner tuning twitch watts weigh
  weighed weighs welded willing wipers wonder wondered wonderful wonderfully worm worms writes dumped provision larger
  steely stripe halts spends spuds flexy boots spoken spoke joints`);

/** Negators that only make an amount small when one follows: "barely 15 %". */
export const LITTLE = set('hardly barely scarcely');

export const AMOUNTS = set('half third quarter fifth sixth tenth few');

const NEGATORS = set(`
  no not never without none neither nor hardly barely rarely seldom scarcely cannot cant can't dont don't doesnt
  doesn't dosnt dosen't didnt didn't isnt isn't arent aren't wasnt wasn't werent weren't wont won't wouldnt
  wouldn't couldnt couldn't shouldnt shouldn't hasnt hasn't havent haven't hadnt hadn't aint ain't nothing
  nowhere`);

/** Of these, the words that say it of themselves: "nothing in the middle" is no "does not come back to the middle". */
export const MEANS_NOTHING = set('nothing none nowhere');
/** What such a word is looked up by beside being a negator. */
export const NOTHING = '~nothing';

export const isNegator = (word: string): boolean => NEGATORS.has(word);

/** After a negator: what is denied is liking, knowing or stopping it, and the sign itself stands. */
export const DENIES_SOMETHING_ELSE = set(`
  like likes liked love enjoy know sure certain only just happy doubt idea matter wonder trust understand stand
  help good nice great right want believe tell why fun question confident pleased keen fan enough correct ok
  okay`);

/** Between a negator and what it denies: "doesn't feel right". */
export const SENSE = set('feel feels felt feeling seem seems look looks sound sounds');

/** Within three words after a negator: it goes on. */
export const GOES_ON = set('stop stops stopped stopping rid prevent avoid cure shake keep');

/** Before a sign: it has ended. */
export const ENDED_BEFORE = set('stopped stops stop quit quits cured fixed');

/** After a sign: it has ended. */
export const ENDED_AFTER = set('gone disappeared vanished cured fixed solved');

/** Words that begin a new statement. */
export const NEW_STATEMENT = set('but then yet however although whereas except otherwise plus also');

/** Of these, the words after which what was said of the place before does not hold on. */
export const CONTRAST = set('but yet however although whereas except otherwise');

/** After a bare `rough` or `fast` these say that the ground was meant, not the bike; stems. */
export const GROUND = set(`
  bend berm bit bump climb compress corner descent dirt drop edg ground hit hole jump kerb land lap line lip loam part
  pack path rain road rock roller root run rut sand section soil speed spot stage start step stone stretch stuff tarmac
  terrain track trail turn pace`);

/** How much, not what: between two words of a saying these say nothing of their own. */
export const DEGREES = set(
  'already full fully completely totally entirely slightly super still again right much way too very never only just almost nearly both outside inside',
);

/** Between a negator and what it denies these take nothing of the denial for themselves: "no longer bottoms". */
export const DENIED_OVER: ReadonlySet<string> = new Set([
  ...DEGREES,
  ...SENSE,
  ...set('longer go come coming yet want wants say call claim'),
]);

/** Words at which a denial and the end spoken of may change within one statement. */
export const NEW_PART = set('and so because when whenever which while though & if until');
