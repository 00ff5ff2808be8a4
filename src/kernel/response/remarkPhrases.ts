/** Words that say nothing about the item only when they are said together. */

import type { Token } from '../numbers/tokens.ts'

const PHRASES = `
i say again
right you are | right you go | right now | y all | after that
no questions | no comments | no queries | nothing to add
cross checked | cross check | double checked | double check | triple checked
for take off | for takeoff | for departure | for landing | for the takeoff | for this takeoff | for the departure
for today | for now | for the route | for the trip | for the flight | for us | for me | for you | for your help | for the help
you know | by the way | to be exact | to be precise | as always | as usual | as ever | as per usual | as normal
q n h | q f e | f m s | m c p | p f d | e g t | i t t | r p m | a p u | p o h | a f m | c d u | f m c | e f b | t a r a
first officer
on the gauge | on the indicator | on the display | on both sides | both sides | either side | each side | all sides | all round | all around
on the gauges | on the indicators | on the panel | on the screen | on the overhead | on the card | on the sheet | on the load sheet
on the money | on the nose | on the dot | on the button | on the bug | on the numbers | on the bus | on the buses | on line
on the trim sheet | on the tape | on the dial | on the scale | on the pedestal | on the page | on the plan | on the flight plan
across the board | top and bottom | top to bottom | front and back | side to side | end to end
in the green | in the band | in the green band | in the box | in the window | in the windows | in the f m s | in the book
in the detent | in its detent | in the gate | in the slot | in the range | in range | in limits | in the limits | in the envelope
in the computer | in sight | in view | in the white | in the arc | in line | in order | in agreement | in hand | in his hand | in her hand
in the middle | in the centre | in the center | in the tanks | in both | in all | in the system | in the memory
within limits | within the limits | within limit | within the envelope | within tolerance | within the band | within the green | within range
inside limits | inside the limits | inside the envelope | inside the band | inside the green
under the limit | under limit | under max | under maximum | under the max | under the maximum | well under | below the limit
below max | below maximum | below the maximum | below the max | well below | well within | well inside
all right | about right | all good | all fine | all well | all normal | all green | all greens | all yours | all of them | all of it
good to go | happy with that | happy with it | looks good | looks right | looks fine | sounds good | no smoking
no longer needed | no longer required | no need | no need for it | no worries | nothing unusual | no amber | no ambers | no low pressure lights | no low pressure light | low pressure lights out | low pressure lights are out | low pressure lights are all out | lights out | lights are out | cooled down | no icing conditions | no icing | no problem | no problems | no issues | no change | no changes | no dramas | no surprises | no complaints | no trouble
no doubt | no question | no kidding | no rush | no hurry
ready when you are
thumbs up | thumb up | thumbs up received | good morning | good afternoon | good evening | good day | good night | have a good one
have a good day | have a nice day | see you | see ya | see you later | bye bye | so long | take care | talk to you later
thank you very much | thank you so much | many thanks | thanks a lot | thanks a million | much appreciated | much obliged
beg your pardon | ma am | you know what | if you please | if you like
coming up nicely | straight and level | spot on | bang on | dead on | just so | just right | just as well
made sure | making sure | had a look | have a look | took a look | having a look | take a look | i can see | can see | i can feel | can feel | i can hear | can hear
as per | as planned | as briefed | as cleared | as filed | as expected | as calculated | as computed | as loaded | as dispatched
like the card says | like the book says | by the book | per the card | per the book | from the card | from the sheet | from the book | off the card | off the sheet
off the gauge | off the gauges | off the display | off the screen | off the panel | off the load sheet | off the chart
up and running | up and ready | on our side of it
to the letter
up here | over here | out there | back there | down there | over there | right here | just there | up front | down the back | down back
all the way back | right back | hard back | after the start | one moment | below our maximum | below our max
what we briefed | what we got | what we planned | what we have | what we had
stop to stop | all the way | all the way round | all the way around | right round | to the stops | on the stops | full movement | full travel
in all directions | in the correct sense | in the right sense | the right way | as well | of each other | from each other
from the table | in the table | off the plate | off the table | from the manual | in the manual | from the numbers
cart is gone | cart is already gone | cart has gone | cart is away | cart away | cart is clear | cart clear | cart pulled away | took the cart away | taken the cart away
let's go | you can go | you can push | ready to push | ready for push | we are ready | we're ready | i confirm | take off
low pressure lights extinguished | low pressure lights are extinguished | low pressure lights off | low pressure lights are off
low pressure light is out | low pressure lights all out | no low pressure | no low pressure warnings | no low pressure indications | no lights of low pressure
caution light is gone out | caution light is out | caution light out | warning light is out | no lights on the panel
ground man | the man is hand | man is hand | hand of the man | hand of the ground man | shows me | showed me | showing me
well above that | above that | well above it | below that | by the looks of it | by the look of it | from here
clear on the left | clear on the right
waved off | waved us off | waves us off | waving us off | wave off
the pair of them | pair of them | both of them | the two of them | the three of them | the four of them
you can go | you may go | you can go when you want | when you want | go when you are ready | you have the airplane | you have the aircraft | she is all yours | all yours | free to go | clear to go | can go
coming down nicely | coming up well | going up well | going up nicely | rising nicely | and rising steadily
holding it up | holding them up | held it up | held them up | held up | holds it up | holding em up | held em up
moved the switch up | put the switch up | switch is up | pulled the levers back | pulled the thrust levers back
running smooth | running smoothly | running nicely | running stable | running well | running fine | running good | engines are running | all running
worked out | worked it out | wrote down | noted down | took down | read off | looked up | lined up with | lines up with | settled down | settled down nicely
in the pair | in the sector | in this sector | for the sector | in normal range | in the normal range | in detent | in blue | in white | in green | in the correct sense | in the right direction
off the runway | off the hangar | on the hangar | on the ground | on the wall | on the needle | on the ammeter | on the annunciator | on the mode | on the computer
red light is on | red light on | red light illuminated | red light is illuminated | the red light here | red ribbon | red flag | red streamer | red knob | red knobs | red levers | red lever
no icing today | not a cloud | no continuous | no cross feed | no crossfeed | no need for it today
because of the hills | because of the weather | nice and low | nice and slow | final load sheet | final sheet
ready to go | we are ready to go | ready up here | ready back there | ready to push | ready for the push | fully ready
runway heading | what was it | what is it | that's better | the other two | other two | all three of them | for once | pounds per square inch
let me see | let me look | let me check | let me find it | let me read it | just let me find it
fuel comes now | fuel is coming | fuel coming | fuel is on now | good rise
standard day | standard day today | the standard setting | standard setting here
pressure is up | pressure is up in the green | up in the green | up in the band
enough for the route | enough for the trip | enough for the flight | enough for today | it is enough | that is enough | that's enough | which is within the limits | which is within limits | which is fine | which is good | which is in the green
ammeter is moving | ammeter moved | ammeter moves | the ammeter move | needle is moving | needle moved | the needle move | strapped in good and tight | strapped in tight | strapped in nice and tight
over on your side | over on yours | over here | back at idle | back in idle | back to idle | back on idle
for this one | for that one | this one | on the way | out of the table | out of the book | straight out of the book | guard is down | guard down | handle is forward | handle is up | handle up | lever is up
generators have the load | generators have it | sky is clear | for the climb | thumbs up from outside | from outside | saw them go | saw it go | saw him go | watched them go | to the idle stop | at the idle stop | on the idle stop
hot day | cold day | a hot day | a cold day | both sides | altitude armed | heading armed | ident is off | ident off | a touch forward | a touch aft | a touch forward of the middle
very good | very nice | very cold | very warm | very well | a wee bit | a bit
departure runway | takeoff runway | active runway | fasten seat belt | fasten belts | just now | right now
`

const BY_FIRST: ReadonlyMap<string, readonly (readonly string[])[]> = (() => {
  const table = new Map<string, (readonly string[])[]>()
  for (const phrase of PHRASES.split(/[|\n]/)) {
    const words = phrase.trim().split(/\s+/)
    const [first = ''] = words
    if (first !== '') table.set(first, [...(table.get(first) ?? []), words])
  }
  for (const list of table.values()) list.sort((one, other) => other.length - one.length)
  return table
})()

/** How many words from `at` on are such a phrase. */
export function remarkPhraseAt(tokens: readonly Token[], at: number): number {
  const found = BY_FIRST.get(tokens[at]?.text ?? '')?.find((words) =>
    words.every((word, index) => tokens[at + index]?.text === word),
  )
  return found?.length ?? 0
}
