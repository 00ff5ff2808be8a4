/** CHECK data by hand: what pilots of light aircraft say to the twin's challenges on its final sheet, and what must not pass. */

export const TWIN_SAYINGS: Readonly<
  Record<string, { readonly right: readonly string[]; readonly wrong: readonly string[] }>
> = {
  'figures.weight': {
    right: [
      'four thousand six hundred ninety eight',
      'forty six ninety eight',
      '4,698 pounds',
      'takeoff weight is four six niner eight',
    ],
    wrong: ['four thousand six hundred eighty nine', 'forty six hundred', 'five thousand eighty'],
  },
  'figures.cg': {
    right: ['ninety four point four', 'nine four decimal four inches', 'ninety four point four inches'],
    wrong: ['ninety four point three', 'ninety two point three', 'ninety four'],
  },
  'figures.available': {
    right: ['four thousand eight hundred fifty', 'forty eight fifty', 'four eight five zero feet'],
    wrong: ['three thousand three hundred', 'four thousand eight hundred', 'forty eight fifteen'],
  },
  'figures.distance': {
    right: ['two thousand', 'two thousand feet', 'takeoff distance two thousand feet'],
    wrong: ['two thousand fifty', 'one thousand nine hundred', 'twelve hundred', 'two hundred'],
  },
  'figures.stop': {
    right: [
      'two thousand nine hundred fifty',
      'twenty nine fifty',
      'accelerate stop distance is two thousand nine hundred fifty feet',
    ],
    wrong: ['two thousand', 'two thousand nine hundred', 'three thousand ten'],
  },
  'figures.control': {
    right: ['six two', 'sixty two knots', 'red line sixty two', 'minimum control speed six two knots'],
    wrong: ['seven two', 'sixty seven', 'blue line ninety'],
  },
  'figures.bestRate': {
    right: ['niner zero', 'ninety knots', 'blue line ninety', 'best rate is ninety', 'ninety'],
    wrong: ['niner two', 'eighty nine', 'sixty two', 'nineteen'],
  },
  'figures.climb': {
    right: ['two hundred', 'two hundred feet a minute', 'two hundred feet per minute'],
    wrong: ['minus two hundred', 'two hundred ten', 'twenty', 'two thousand'],
  },
  'cabin.seats': {
    right: ['seats locked harnesses on', 'seats are locked, harnesses are on', 'locked and on'],
    wrong: ['seats unlocked harnesses on', 'seats locked harnesses off', 'seats locked', 'checked'],
  },
  'cabin.doors': {
    right: ['both latched', 'latched', 'both doors latched'],
    wrong: ['both open', 'unlatched', 'not latched'],
  },
  'cabin.locks': { right: ['lock out', 'out', 'control lock is out'], wrong: ['lock in', 'not out', 'still in'] },
  'cabin.selectors': {
    right: ['both on cross feed off', 'selectors both on and crossfeed off', 'on and cross feed is off'],
    wrong: ['both on cross feed on', 'both off cross feed off', 'both on', 'left on right off'],
  },
  'cabin.gear': { right: ['lever down', 'down', 'gear lever is down'], wrong: ['lever up', 'up', 'not down'] },
  'cabin.air': {
    right: ['both closed', 'closed', 'alternate air closed'],
    wrong: ['both open', 'left closed right open'],
  },
  'beforeStart.beacon': { right: ['beacon on', 'on'], wrong: ['beacon off', 'not on'] },
  'beforeStart.pumps': {
    right: ['both pumps on', 'pumps on', 'on'],
    wrong: ['pumps off', 'left on right off', 'not on'],
  },
  'beforeStart.brakes': {
    right: ['brakes held', 'held', 'brakes are held', 'brakes holding', 'feet on the brakes, held'],
    // A parking brake may creep: neither it nor "set" is what is asked for.
    wrong: [
      ...['brakes released', 'brakes off', 'not held', 'brakes set', 'parked'],
      ...['parking brake held', 'parking brake set', 'parking brake is holding', 'held on the parking brake'],
    ],
  },
  'beforeStart.area': { right: ['area clear', 'clear', 'clear both sides'], wrong: ['not clear', 'area not clear'] },
  'afterStart.alternators': {
    right: ['left on right on', 'left on and right on', 'left is on right is on'],
    wrong: ['left on right off', 'left off right on', 'left on', 'both off'],
  },
  'afterStart.pumps': {
    right: ['pumps off pressure normal', 'pumps are off, pressure is normal', 'off and normal'],
    wrong: ['pumps on pressure normal', 'pumps off pressure low', 'pumps off'],
  },
  'runUp.magnetos': { right: ['all on both', 'magnetos all on both'], wrong: ['left off', 'all off', 'not on both'] },
  'runUp.mixtures': { right: ['both rich', 'rich', 'mixtures rich'], wrong: ['both lean', 'left rich right lean'] },
  'runUp.propellers': {
    right: ['both forward', 'forward', 'full forward'],
    wrong: ['both back', 'both feathered', 'not forward'],
  },
  'lineUp.controls': {
    right: ['full and free', 'free and correct', 'controls full and free', 'full free and correct'],
    wrong: ['restricted', 'free and reversed', 'not free', 'crossed'],
  },
  'lineUp.flap': {
    right: ['flap zero', 'zero', 'flap up', 'flaps zero set'],
    wrong: ['flap nine', 'nine', 'flap not set'],
  },
  'lineUp.trim': {
    right: ['three point zero up', 'three point oh up set', 'three decimal zero nose up'],
    wrong: ['three point zero down', 'three point five up', 'three point zero'],
  },
  'lineUp.rudderTrim': {
    right: ['set neutral', 'neutral', 'rudder trim neutral'],
    wrong: ['set left', 'not neutral', 'two left'],
  },
  'lineUp.before': {
    right: ['close both throttles', 'both throttles closed', 'I close both throttles'],
    wrong: ['open both throttles', 'not closed'],
  },
  'lineUp.gearDown': {
    right: ['land ahead', 'we land ahead', 'land straight ahead'],
    wrong: ['climb ahead', 'turn back', 'do not land'],
  },
  'lineUp.gearUp': {
    right: ['best rate ninety', 'blue line niner zero knots', 'blue line ninety', 'ninety'],
    wrong: ['best rate ninety two', 'red line sixty two', 'best rate'],
  },
  'lineUp.transponder': {
    right: ['two seven one three', 'code two seven one three altitude on', 'two seven one three altitude'],
    wrong: ['two seven three one', 'two seven one', 'one two zero zero'],
  },
  'lineUp.lights': { right: ['landing lights on', 'lights on', 'on'], wrong: ['landing lights off', 'not on'] },
  'lineUp.heading': {
    right: ['one one two', 'heading one one two', 'one twelve'],
    wrong: ['two niner two', 'one one eight', 'one one'],
  },
}
