/** The screen of packs, as a person uses it. */

import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/preact'
import userEvent from '@testing-library/user-event'
import { describe, expect, it, vi } from 'vitest'
import { PackText } from '../../src/ui/parts/packs/PackText.tsx'
import { createFakeShelf } from '../fakes/packShelf.ts'
import { ownPack, SMALL_PACK } from '../fakes/smallPack.ts'
import { flying, stage } from './stage.tsx'

const YAML = SMALL_PACK['procedures.yaml'] ?? ''
const files = (texts = SMALL_PACK) => Object.entries(texts).map(([path, text]) => new File([text], path))
const card = (name: string) => screen.findByRole('article', { name })
const inCard = async (name: string, button: string) => within(await card(name)).getByRole('button', { name: button })
const chooser = () => screen.getByLabelText('Choose files, or drop them or their folder here')

function packs(shelf = createFakeShelf([ownPack()])) {
  const on = stage({ screen: 'packs' }, { packShelf: shelf })
  return { ...on, press: async (name: string, button: string) => on.user.click(await inCard(name, button)) }
}

describe('the list of packs', () => {
  it('shows what each is, and what can be done with it', async () => {
    const { pack } = packs()
    const own = await card('Wren')
    expect(own.textContent).toMatch(/version 1.0.0; 1 list; not flown yet; changed 1 Jan 2000/)
    expect(
      within(own)
        .getAllByRole('button')
        .map(({ textContent }) => textContent),
    ).toEqual(['Fly', 'Edit', 'Export', 'Link', 'Copy', 'Cards', 'Rename', 'Delete'])
    const app = await card(pack.name)
    expect(app.textContent).toMatch(/version [\d.]+; \d+ lists; not flown yet/)
    expect(
      within(app)
        .getAllByRole('button')
        .map(({ textContent }) => textContent),
    ).toEqual(['Fly', 'Export', 'Link', 'Copy to your own', 'Cards'])
  })

  it('offers nothing to fly that has mistakes, says so, and leads to the first of them', async () => {
    const { press } = packs(createFakeShelf([ownPack('procedures.yaml', YAML.replace('<fuel>', '<feul>'))]))
    const own = await card('Wren')
    expect(own.textContent).toMatch(/One thing to mend before it can be flown; it is kept as it is/)
    expect(own.textContent).toMatch(
      /procedures.yaml, line 10, column \d+: no figure is called "feul"; did you mean "fuel"\?/,
    )
    expect(within(own).queryByRole('button', { name: 'Fly' })).toBeNull()
    await press('Wren', 'Edit')
    expect(await screen.findByRole('textbox', { name: 'procedures.yaml' })).toBeTruthy()
  })

  it('calls one whose pack.yaml cannot be read by where it came from, and renames it only when that is mended', async () => {
    packs(createFakeShelf([ownPack('pack.yaml', 'name: [')]))
    const own = await card('Wren from home')
    const buttons = within(own).getAllByRole('button')
    expect(buttons.map(({ textContent }) => textContent)).toEqual(['Edit', 'Export', 'Link', 'Copy', 'Delete'])
  })

  it('flies one: its figures are next', async () => {
    const { press } = packs()
    await press('Wren', 'Fly')
    expect(await screen.findByRole('heading', { level: 1, name: 'Figures of this departure' })).toBeTruthy()
    expect(screen.getByLabelText(/^fuel on board/)).toBeTruthy()
  })

  it('renames, copies, deletes one, and takes that back', async () => {
    const { press, user } = packs()
    await press('Wren', 'Rename')
    const name = screen.getByLabelText('Name')
    await user.clear(name)
    await user.type(name, 'Home wren{Enter}')
    await user.dblClick(await inCard('Home wren', 'Copy'))
    expect(await card('Home wren (copy)')).toBeTruthy()
    expect(screen.getAllByRole('article', { name: /^Home wren/ }).length).toBe(2)
    await press('Home wren', 'Delete')
    const undo = await screen.findByRole('button', { name: 'Undo' })
    expect(screen.queryByRole('article', { name: 'Home wren' })).toBeNull()
    await waitFor(() => expect(document.activeElement).toBe(undo))
    await user.keyboard('{Enter}')
    expect(await card('Home wren')).toBeTruthy()
  })

  it('brings none back beside the same one that has been imported since', async () => {
    const { press, user } = packs()
    await press('Wren', 'Delete')
    await screen.findByRole('button', { name: 'Undo' })
    await user.upload(chooser(), files())
    expect(await card('Wren')).toBeTruthy()
    expect(screen.queryByRole('button', { name: 'Undo' })).toBeNull()
  })

  it('lets nothing else be flown while a run is under way', async () => {
    const { user } = await flying()
    await user.click(screen.getByRole('button', { name: 'Packs' }))
    expect(await screen.findByText(/^A run is under way. It keeps the pack that it began with/)).toBeTruthy()
    const fly = await screen.findAllByRole('button', { name: 'Fly' })
    expect(fly.map((button) => (button as HTMLButtonElement).disabled)).toEqual(fly.map(() => true))
  })
})

describe('a new pack', () => {
  it('is begun with one that is sound, and opened; a second click makes no second one', async () => {
    const { user } = packs(createFakeShelf())
    await user.dblClick(screen.getByRole('button', { name: /^Light twin/ }))
    expect(await screen.findByRole('textbox', { name: 'procedures.yaml' })).toBeTruthy()
    await user.click(screen.getByRole('button', { name: 'All packs' }))
    expect((await card('Light twin')).textContent).toMatch(/3 lists; not flown yet/)
    expect(screen.queryByRole('article', { name: /^Light twin \(copy/ })).toBeNull()
    await user.click(screen.getByRole('button', { name: /^Light twin/ }))
    await user.click(await screen.findByRole('button', { name: 'All packs' }))
    expect(await card('Light twin (copy)')).toBeTruthy()
  })
})

describe('beside the text', () => {
  async function atItem(line: string) {
    const on = packs()
    await on.press('Wren', 'Edit')
    const text = (await screen.findByRole('textbox', { name: 'procedures.yaml' })) as HTMLTextAreaElement
    text.focus()
    text.setSelectionRange(text.value.indexOf(line), text.value.indexOf(line))
    fireEvent.select(text)
    return on
  }
  const beside = () => screen.getByRole('region', { name: 'At the cursor' })

  it('stands the list as the pilot sees it, with the item at the cursor', async () => {
    await atItem('item: canopy')
    const here = await within(beside()).findByText('canopy', { selector: '[aria-current] *' })
    expect(here.closest('ol')?.textContent).toMatch(/fuel on board\(fuel on board\) kilograms.*runway \(runway\)/)
  })

  it('stands what is right and what is not taken, and an answer can be tried', async () => {
    const { user } = await atItem('item: fuel')
    await within(beside()).findByText('“two four kilograms”')
    const refused = within(beside()).getByRole('list', { name: 'Not taken' })
    expect(refused.textContent).toMatch(/(four|forty) two kilograms.*two digits swapped/)
    await user.type(screen.getByLabelText('Try an answer'), 'two five')
    expect(await within(beside()).findByText('Negative')).toBeTruthy()
    expect(beside().textContent).toMatch(/Fuel “two five” is wrong, read as 25, for 24/)
    await user.clear(screen.getByLabelText('Try an answer'))
    await user.type(screen.getByLabelText('Try an answer'), 'two four')
    expect(await within(beside()).findByText('Correct')).toBeTruthy()
  })
})

describe('the form', () => {
  const form = () => within(screen.getByRole('region', { name: 'Form' }))
  const text = () => screen.getByRole<HTMLTextAreaElement>('textbox', { name: 'procedures.yaml' }).value
  const choose = async (user: ReturnType<typeof userEvent.setup>, name: string) =>
    user.selectOptions(
      await form().findByLabelText('Form of'),
      form().getByRole('option', { name: new RegExp(`${name}$`) }),
    )

  it('writes the same text, adds and moves items, and each can be taken back from another file', async () => {
    const { press, user } = packs()
    await press('Wren', 'Edit')
    await screen.findByRole('textbox', { name: 'procedures.yaml' })
    await choose(user, 'item: canopy')
    await user.type(await form().findByLabelText('response'), ' now')
    expect(text()).toBe(YAML.replace('closed and locked', 'closed and locked now'))
    await user.click(form().getByText('More that it may have'))
    await user.type(form().getByLabelText(/^when/), 'oat: at least 0, below 5')
    expect(text()).toContain('when: {oat: {atLeast: 0, below: 5}}')
    await user.clear(form().getByLabelText(/^when/))
    await user.click(form().getByRole('button', { name: 'Move up' }))
    expect(text()).toMatch(/item: canopy.*\n.*item: fuel/)
    await user.click(form().getByRole('button', { name: 'Add an item below' }))
    const challenge = await form().findByLabelText('challenge')
    expect(challenge).toHaveProperty('value', '')
    await user.type(challenge, 'doors')
    expect(text()).toContain('locked now}\n          - {item: item1, challenge: doors, response: ""}\n')
    await user.click(
      within(screen.getByRole('navigation', { name: 'Files of the pack' })).getByRole('button', { name: /^figures/ }),
    )
    await screen.findByRole('textbox', { name: 'figures.yaml' })
    await user.click(screen.getByRole('button', { name: /^Undo: challenge of door/ }))
    await screen.findByRole('textbox', { name: 'procedures.yaml' })
    while (screen.queryByRole('button', { name: /^Undo: / }))
      await user.click(screen.getByRole('button', { name: /^Undo: / }))
    expect(text()).toBe(YAML)
  })

  it('adds what a file has by name, though all of it is one form', async () => {
    const { press, user } = packs()
    await press('Wren', 'Edit')
    await user.click(await screen.findByRole('button', { name: /^pack\.yaml/ }))
    await user.click(await form().findByRole('button', { name: 'Add a situation' }))
    expect(screen.getByRole<HTMLTextAreaElement>('textbox', { name: 'pack.yaml' }).value).toMatch(
      /situations: ?\{?\s*situation1: \{label: "", initial: "no"/,
    )
    const name = await form().findByLabelText('name')
    await user.type(name, ' of mine')
    await user.tab()
    expect(form().getByText(/“situation1 of mine” was not taken: a name is letters and digits/)).toBeTruthy()
    expect(name).toHaveProperty('value', 'situation1')
    await user.click(form().getByRole('button', { name: 'option yes' }))
    expect(form().getByLabelText('Form of').textContent).toContain('option: yes')
    await choose(user, 'situation: situation1')
    await user.type(await form().findByLabelText('label'), 'Runway')
    expect(screen.getByRole<HTMLTextAreaElement>('textbox', { name: 'pack.yaml' }).value).toContain('label: Runway')
  })

  it('shows a problem in its field, and is back when a slip in the text is mended', async () => {
    const { press, user } = packs(createFakeShelf([ownPack('procedures.yaml', YAML.replace('<fuel>', '<feul>'))]))
    await press('Wren', 'Edit')
    await screen.findByRole('textbox', { name: 'procedures.yaml' })
    await choose(user, 'item: fuel on board')
    const field = await form().findByLabelText('response')
    expect(field.getAttribute('aria-invalid')).toBe('true')
    expect(form().getByText(/no figure is called "feul"/)).toBeTruthy()
    fireEvent.input(screen.getByRole('textbox', { name: 'procedures.yaml' }), { target: { value: 'phases: [' } })
    expect(await screen.findByText(/^The text has a slip/)).toBeTruthy()
  })
})

describe('a link', () => {
  const linkOf = async () => {
    const { press } = packs()
    await press('Wren', 'Link')
    const field = (await screen.findByLabelText(/^A link that holds Wren/)) as HTMLInputElement
    cleanup()
    return new URL(field.value).hash
  }

  it('holds a pack, which is taken only when the person says so', async () => {
    history.replaceState(null, '', await linkOf())
    const shelf = createFakeShelf()
    const { user } = stage({ screen: 'start' }, { packShelf: shelf })
    const question = await screen.findByRole('alert', { name: 'A link brings a pack: Wren' })
    expect(question.textContent).toMatch(/Wren, a glider with a motor \(invented\); version 1.0.0; 1 list/)
    expect(location.hash).toBe('#packs')
    expect(await shelf.all()).toEqual([])
    await user.click(screen.getByRole('button', { name: 'Take it among your own packs' }))
    expect(await inCard('Wren', 'Fly')).toBeTruthy()
    expect(screen.queryByRole('alert', { name: /^A link brings/ })).toBeNull()
  })

  it('that comes while a run waits to be resumed is offered among the packs', async () => {
    history.replaceState(null, '', await linkOf())
    const { store } = stage({ screen: 'start', needsGesture: true })
    await waitFor(() => expect(store.getState().shelf.linked?.name).toBe('Wren'))
    expect(location.hash).not.toContain('pack=')
  })

  it('that is left, or cut, leaves nothing', async () => {
    const hash = await linkOf()
    history.replaceState(null, '', hash)
    const shelf = createFakeShelf()
    const { user } = stage({ screen: 'start' }, { packShelf: shelf })
    await user.click(await screen.findByRole('button', { name: 'Leave it' }))
    expect(screen.queryByRole('alert', { name: /^A link brings/ })).toBeNull()
    cleanup()
    history.replaceState(null, '', hash.slice(0, -60))
    stage({ screen: 'start' }, { packShelf: shelf })
    expect(await screen.findByText('Nothing was imported.')).toBeTruthy()
    expect(await shelf.all()).toEqual([])
  })
})

describe('the browser’s Back', () => {
  it('leads to the screen before, and out of the editor to the list', async () => {
    const { press, user } = packs()
    await press('Wren', 'Edit')
    await screen.findByRole('textbox', { name: 'procedures.yaml' })
    await waitFor(() => expect(location.hash).toBe('#packs/wren/procedures.yaml'))
    await user.click(screen.getByRole('button', { name: 'Settings' }))
    await waitFor(() => expect(location.hash).toBe('#settings'))
    history.back()
    await screen.findByRole('textbox', { name: 'procedures.yaml' })
    await waitFor(() => expect(location.hash).toBe('#packs/wren/procedures.yaml'))
    history.back()
    expect(await card('Wren')).toBeTruthy()
  })

  it('goes to no screen that is not there any more', async () => {
    packs()
    await card('Wren')
    await waitFor(() => expect(location.hash).toBe('#packs'))
    history.pushState(null, '', '#run')
    window.dispatchEvent(new PopStateEvent('popstate'))
    await waitFor(() => expect(location.hash).toBe('#packs'))
    expect(await card('Wren')).toBeTruthy()
  })
})

describe('cards', () => {
  it('are of each list and table, with pack, version and caution on each', async () => {
    const { press, user } = packs()
    await press('Wren', 'Cards')
    expect(await screen.findByRole('heading', { level: 1, name: 'Cards of Wren' })).toBeTruthy()
    const sheets = screen.getAllByRole('presentation')
    expect(sheets.map(({ textContent }) => textContent)).toEqual([
      expect.stringMatching(
        /^before takeoffWren, version 1.0.0, printed .*fuel on board\(fuel on board\) kilograms.*For training and simulation only|For training/,
      ),
    ])
    await user.click(screen.getByRole('radio', { name: 'Large' }))
    expect(sheets[0]?.parentElement?.className).toMatch(/type-large/)
    await user.click(screen.getByRole('button', { name: 'All packs' }))
    expect(await card('Wren')).toBeTruthy()
  })
})

describe('a pack is imported', () => {
  it('from chosen files', async () => {
    const { user } = packs(createFakeShelf())
    await user.upload(chooser(), files())
    expect(await inCard('Wren', 'Fly')).toBeTruthy()
  })

  it('from dropped ones, and a dropped folder', async () => {
    packs(createFakeShelf())
    const zone = chooser().closest('.drop') as HTMLElement
    fireEvent.drop(zone, { dataTransfer: { items: [], files: files({ 'procedures.yaml': YAML }) } })
    expect(await card('Pack without a name')).toBeTruthy()
    const entry = (name: string, text: string) => ({
      ...{ name, isFile: true, isDirectory: false },
      file: (give: (file: File) => void) => give(new File([text], name)),
    })
    const folder = (name: string, inside: readonly object[]) => ({
      ...{ name, isFile: false, isDirectory: true },
      createReader() {
        const parts = [inside, []]
        return { readEntries: (give: (part: readonly object[]) => void) => give(parts.shift() ?? []) }
      },
    })
    const { 'inputs/today.yaml': sheet = '', ...own } = SMALL_PACK
    const whole = folder('wren', [
      ...Object.entries(own).map(([name, text]) => entry(name, text)),
      folder('inputs', [entry('today.yaml', sheet)]),
    ])
    fireEvent.drop(zone, { dataTransfer: { items: [{ webkitGetAsEntry: () => whole }], files: [] } })
    await waitFor(async () => expect((await card('Wren')).textContent).toMatch(/version 1.0.0/))
  })

  it('from a paste', async () => {
    const { user } = packs(createFakeShelf())
    await user.click(screen.getByText('Paste files, or the text of one'))
    const field = screen.getByLabelText(/^YAML of one file/)
    await user.click(field)
    await user.paste(
      Object.entries(SMALL_PACK)
        .map(([path, text]) => `==> ${path} <==\n${text}`)
        .join('\n'),
    )
    await user.click(screen.getByRole('button', { name: 'Import the text' }))
    expect(await inCard('Wren', 'Fly')).toBeTruthy()
    fireEvent.paste(field, { clipboardData: { files: [new File(['x'], 'letter.txt')] } })
    expect(await screen.findByText(/^There is no file of a pack in it/)).toBeTruthy()
  })

  it('or nothing is, and one sentence says why', async () => {
    const { user } = packs(createFakeShelf())
    await user.upload(chooser(), [new File(['PK'], 'wren.zip')])
    const sentence = await screen.findByText(/The zip is cut short or damaged/)
    expect(sentence.closest('[role=alert]')?.textContent).toBe(
      'Nothing was imported. The zip is cut short or damaged: copy or download it again.',
    )
  })

  it('in the place of one with its id, or beside it, as the person says', async () => {
    const { user } = packs()
    const newer = { ...SMALL_PACK, 'pack.yaml': (SMALL_PACK['pack.yaml'] ?? '').replace('1.0.0', '2.0.0') }
    await user.upload(chooser(), files(newer))
    await screen.findByRole('heading', { name: 'Wren has the id of a pack that is there' })
    await user.click(screen.getByRole('button', { name: 'Replace Wren' }))
    await waitFor(async () => expect((await card('Wren')).textContent).toMatch(/version 2.0.0/))
    await user.click(await screen.findByRole('button', { name: 'Undo' }))
    await waitFor(async () => expect((await card('Wren')).textContent).toMatch(/version 1.0.0/))
  })

  it('though it cannot be stored, and that is said', async () => {
    const shelf = createFakeShelf()
    shelf.refuse('The browser has no room left for your packs.')
    const { user } = packs(shelf)
    await user.upload(chooser(), files())
    const told = await screen.findByText(/The browser has no room left for your packs/)
    expect(told.textContent).toMatch(/^Kept only until this page closes./)
    expect(await inCard('Wren', 'Fly')).toBeTruthy()
  })
})

describe('a file', () => {
  it('is one of those that the pack has or may have, and says what is wrong in each', async () => {
    const { press, user } = packs(createFakeShelf([ownPack('procedures.yaml', YAML.replace('<fuel>', '<feul>'))]))
    await press('Wren', 'Edit')
    const choice = await screen.findByRole('navigation', { name: 'Files of the pack' })
    expect(
      within(choice)
        .getAllByRole('button')
        .map(({ textContent }) => textContent),
    ).toEqual([
      'pack.yaml',
      'figures.yaml',
      'tables.yamlnot there',
      'procedures.yaml1 to mend',
      'papers.yamlnot there',
      'grading.yamlnot there',
      'inputs/today.yaml',
    ])
    await user.click(within(choice).getByRole('button', { name: /^figures/ }))
    expect(await screen.findByRole('textbox', { name: 'figures.yaml' })).toHaveProperty(
      'value',
      SMALL_PACK['figures.yaml'],
    )
    expect(screen.getByText('Nothing to mend in this file.')).toBeTruthy()
    await user.click(screen.getByRole('button', { name: 'All packs' }))
    expect(await card('Wren')).toBeTruthy()
  })

  it('of a draft says how many questions are still to be settled in it', async () => {
    const asked = `# Each "# ?" is a guess.\n  # ? line 2: both?\n${YAML}# ? line 9: or?\n`
    const { press } = packs(createFakeShelf([ownPack('procedures.yaml', asked)]))
    await press('Wren', 'Edit')
    expect(await screen.findByText(/^2 to settle here/)).toBeTruthy()
  })

  it('takes a table that was pasted, is opened at it, and lets it go again', async () => {
    const { user } = packs()
    await card('Wren')
    await user.click(screen.getByRole('textbox', { name: 'Checklist as text' }))
    await user.paste('Trim\nWeight (lb)\tFlap 0\tFlap 10\n3000\t5\t4\n3500\t3\t2\n')
    await user.click(screen.getByRole('button', { name: 'Make a draft' }))
    await user.click(screen.getByRole('button', { name: 'Put trim into it' }))
    const text = await screen.findByRole<HTMLTextAreaElement>('textbox', { name: 'tables.yaml' })
    await waitFor(() => expect(text.value).toMatch(/^tables:\n {2}trim:\n/))
    expect(await screen.findByRole('button', { name: /^\d to settle here/ })).toBeTruthy()
    await user.click(await screen.findByRole('button', { name: 'Undo: table trim put in' }))
    await waitFor(() => expect(text.value).toBe(''))
  })

  it('that another tab has changed too asks which it is to be', async () => {
    const shelf = createFakeShelf([ownPack()])
    const { press, user, clock } = packs(shelf)
    await press('Wren', 'Edit')
    const text = await screen.findByRole('textbox', { name: 'procedures.yaml' })
    fireEvent.input(text, { target: { value: '# mine' } })
    await shelf
      .tab()
      .change('wren', (there) => there && { ...there, files: { ...there.files, 'procedures.yaml': '# theirs' } })
    clock.advance(1_000)
    await user.click(await screen.findByRole('button', { name: 'Take what the other tab has' }))
    await waitFor(() =>
      expect(screen.getByRole('textbox', { name: 'procedures.yaml' })).toHaveProperty('value', '# theirs'),
    )
    expect(screen.queryByRole('alert')).toBeNull()
  })
})

describe('the text', () => {
  it('has numbered lines, and problems that lead to their place', async () => {
    const value = 'first\nsecond line\nthird'
    const place = { file: 'pack.yaml', line: 2, column: 8 }
    const problem = { code: 'x', message: 'a line too long', severity: 'error', place } as const
    const onChange = vi.fn()
    const places = { current: { goTo() {}, show() {} } }
    const field = { pack: 'wren', label: 'pack.yaml', value, files: {}, problems: [problem], places, onChange }
    render(<PackText {...field} />)
    expect(document.querySelector('.numbers')?.textContent).toBe('1\n2\n3')
    await userEvent.click(screen.getByRole('button', { name: 'Line 2, column 8: a line too long' }))
    const text = screen.getByRole<HTMLTextAreaElement>('textbox', { name: 'pack.yaml' })
    expect([document.activeElement === text, text.selectionStart]).toEqual([true, value.indexOf('line\nthird')])
    await userEvent.keyboard('x')
    expect(onChange).toHaveBeenCalledWith('first\nsecond xline\nthird')
    cleanup()
  })
})
