import { checkFactsOf, limitTitle, protocolRegistry, type SetupField, protocolSizes as sizes } from '@sthene/core';
import { protocolWords } from '../../words/protocols.ts';
import { FindingLine, NumberInput, Rows, SelectInput, TextInput } from './fields.tsx';
import { type ProtocolForm, type SetupForm, usualLimits } from './form.ts';

const t = protocolWords.edit;

export interface PartProps {
  readonly form: ProtocolForm;
  set(part: Partial<ProtocolForm>, field: string): void;
}

/** What a jump does not have: nobody holds it for a time, and how far jumps may differ is the jump method's. */
const ofPullsAlone: ReadonlySet<string> = new Set([
  'pull.seconds',
  'pull.warnUnder',
  'pull.failUnder',
  'extraTrial.difference',
]);

function Numbers({ form, set, paths }: PartProps & { paths: readonly string[] }) {
  const test = protocolRegistry.get(form.test.id);
  const unit = test?.parameters?.unit;
  const own = paths.filter((path) => test?.jump === undefined || !ofPullsAlone.has(path));
  if (own.length === 0) return null;
  return (
    <div className="number-grid">
      {own.map((path) => (
        <NumberInput
          key={path}
          at={path}
          value={form.numbers[path] ?? ''}
          {...(path === 'extraTrial.difference' && unit !== undefined ? { unit } : {})}
          onChange={(value) => set({ numbers: { ...form.numbers, [path]: value } }, path)}
        />
      ))}
    </div>
  );
}

export function NamePart({ form, set }: PartProps) {
  return (
    <section className="panel">
      <div className="field-pair">
        <TextInput
          at="name"
          label={t.name}
          value={form.name}
          most={sizes.name}
          onChange={(name) => set({ name }, 'name')}
        />
        <div className="field">
          <span className="label">{t.test}</span>
          <p>
            {protocolRegistry.get(form.test.id)?.title} <span className="small soft">{t.testFixed}</span>
          </p>
        </div>
      </div>
      <TextInput
        at="summary"
        label={t.summary}
        value={form.summary}
        most={sizes.summary}
        onChange={(summary) => set({ summary }, 'summary')}
      />
    </section>
  );
}

export function WarmUpPart({ form, set }: PartProps) {
  return (
    <section className="panel" aria-labelledby="part-warm-up">
      <h2 id="part-warm-up">{t.warmUp}</h2>
      <h3>{t.steps}</h3>
      <Rows
        at="warmUp.steps"
        items={form.steps}
        nameOf={(i) => t.step(i + 1)}
        add={t.addStep}
        fresh=""
        most={sizes.steps}
        onChange={(steps, field) => set({ steps }, field)}
        row={(step, i, put) => (
          <TextInput
            at={`warmUp.steps.${i}`}
            label={t.step(i + 1)}
            hideLabel
            value={step}
            most={sizes.step}
            onChange={put}
          />
        )}
      />
      <label className="check-line">
        <input
          type="checkbox"
          checked={form.confirm}
          onChange={(event) => set({ confirm: event.target.checked }, 'warmUp.confirm')}
        />
        {t.confirm}
      </label>
      <h3>{t.efforts}</h3>
      <Rows
        at="warmUp.efforts"
        items={form.efforts}
        nameOf={(i) => t.effort(i + 1)}
        add={t.addEffort}
        fresh={{ share: '', band: '10', weightShare: '1.5' }}
        most={sizes.efforts}
        onChange={(efforts, field) => set({ efforts }, field)}
        row={(one, i, put) => (
          <div className="number-grid">
            <NumberInput
              at={`warmUp.efforts.${i}.share`}
              label={t.share}
              value={one.share}
              onChange={(share) => put({ ...one, share })}
            />
            <NumberInput
              at={`warmUp.efforts.${i}.band`}
              label={t.band}
              value={one.band}
              onChange={(band) => put({ ...one, band })}
            />
            <NumberInput
              at={`warmUp.efforts.${i}.weightShare`}
              label={t.weightShare}
              value={one.weightShare}
              onChange={(weightShare) => put({ ...one, weightShare })}
            />
          </div>
        )}
      />
      <Numbers form={form} set={set} paths={['warmUp.rest']} />
    </section>
  );
}

export function EffortPart({ form, set }: PartProps) {
  return (
    <>
      <section className="panel" aria-labelledby="part-maximal">
        <h2 id="part-maximal">{t.maximal}</h2>
        <Numbers form={form} set={set} paths={['maximal.minimum', 'maximal.planned', 'maximal.maximum']} />
        <Numbers form={form} set={set} paths={['pull.seconds', 'pull.warnUnder', 'pull.failUnder']} />
      </section>
      <section className="panel" aria-labelledby="part-rest">
        <h2 id="part-rest">{t.rest}</h2>
        <Numbers form={form} set={set} paths={['rest.minimum', 'rest.maximum']} />
      </section>
      <section className="panel" aria-labelledby="part-cue">
        <h2 id="part-cue">{t.cue}</h2>
        <TextInput
          at="cue.words"
          label={t.cueWords}
          value={form.cueWords}
          most={sizes.words}
          onChange={(cueWords) => set({ cueWords }, 'cue.words')}
        />
        <div className="number-grid">
          <SelectInput
            at="cue.voice"
            label={t.voice}
            value={form.voice}
            options={t.voices}
            onChange={(voice) => set({ voice }, `cue.voice ${voice}`)}
          />
        </div>
        <Numbers form={form} set={set} paths={['cue.count', 'cue.delay']} />
      </section>
      <section className="panel" aria-labelledby="part-extra">
        <h2 id="part-extra">{t.extra}</h2>
        <Numbers form={form} set={set} paths={['extraTrial.difference', 'extraTrial.share', 'extraTrial.minorShare']} />
      </section>
      <section className="panel" aria-labelledby="part-stop">
        <h2 id="part-stop">{t.stop}</h2>
        <Numbers form={form} set={set} paths={['stop.rejectedInARow', 'stop.fall']} />
        <div className="number-grid">
          <SelectInput
            at="stop.act"
            label={t.act}
            value={form.act}
            options={t.actsOfStop}
            onChange={(act) => set({ act }, `stop.act ${act}`)}
          />
        </div>
      </section>
    </>
  );
}

export function ChecksPart({ form, set }: PartProps) {
  const put = (id: string, part: object, field: string) =>
    set({ checks: { ...form.checks, [id]: { ...(form.checks[id] ?? { use: true, limits: {} }), ...part } } }, field);
  return (
    <section className="panel" aria-labelledby="part-checks">
      <h2 id="part-checks">{t.checks}</h2>
      <p className="small soft">{t.checksHelp}</p>
      <ul className="check-rows">
        {checkFactsOf(form.test.id).map(({ id, title, why, unit }) => {
          const one = form.checks[id];
          if (one === undefined) return null;
          const usual = usualLimits(id);
          return (
            <li key={id}>
              <label className="check-line">
                <input
                  type="checkbox"
                  checked={one.use}
                  onChange={(event) => put(id, { use: event.target.checked }, `checks.${id} ${event.target.checked}`)}
                />
                {title}
              </label>
              <details>
                <summary>{t.more}</summary>
                <p className="small soft">{why}</p>
                <div className="number-grid">
                  {Object.entries(one.limits).map(([limit, value]) => (
                    <TextInput
                      key={limit}
                      at={`checks.${id}.limits.${limit}`}
                      label={limitLabel(limit, unit, usual[limit] ?? 0)}
                      value={value}
                      onChange={(text) =>
                        put(id, { limits: { ...one.limits, [limit]: text } }, `checks.${id}.limits.${limit}`)
                      }
                    />
                  ))}
                </div>
              </details>
              <FindingLine id={`checks-${id}`} at={`checks.${id}`} />
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** Limits without an ending are in the unit of their check; counts have none. */
function limitLabel(limit: string, unit: string, usual: number): string {
  const own = (limit === 'warn' || limit === 'fail') && unit !== '1' ? ` (${unit})` : '';
  return `${limitTitle(limit)}${own}, ${t.usual(usual)}`;
}

const freshField: SetupForm = { id: '', title: '', kind: 'number', unit: 'cm', choices: '', required: false };

export function SetupFieldsPart({ form, set }: PartProps) {
  return (
    <section className="panel" aria-labelledby="part-setup">
      <h2 id="part-setup">{t.setup}</h2>
      <p className="small soft">{t.setupHelp}</p>
      <Rows
        at="setupFields"
        items={form.setupFields}
        nameOf={(i) => form.setupFields[i]?.title || t.field(i + 1)}
        add={t.addField}
        fresh={freshField}
        most={sizes.setupFields}
        onChange={(setupFields, field) => set({ setupFields }, field)}
        row={(field, i, put) => (
          <div className="setup-row">
            <TextInput
              at={`setupFields.${i}.title`}
              label={t.fieldTitle}
              value={field.title}
              most={sizes.fieldTitle}
              onChange={(title) => put({ ...field, title })}
            />
            <SelectInput<SetupField['kind']>
              at={`setupFields.${i}.kind`}
              label={t.fieldKind}
              value={field.kind}
              options={t.kinds}
              onChange={(kind) => put({ ...field, kind })}
            />
            {field.kind === 'number' && (
              <TextInput
                at={`setupFields.${i}.unit`}
                label={t.unit}
                value={field.unit}
                most={12}
                onChange={(unit) => put({ ...field, unit })}
              />
            )}
            {field.kind === 'choice' && (
              <TextInput
                at={`setupFields.${i}.choices`}
                label={t.choices}
                value={field.choices}
                onChange={(choices) => put({ ...field, choices })}
              />
            )}
            <label className="check-line">
              <input
                type="checkbox"
                checked={field.required}
                onChange={(event) => put({ ...field, required: event.target.checked })}
              />
              {t.required}
            </label>
            <FindingLine id={`setup-${i}`} at={`setupFields.${i}.id`} />
          </div>
        )}
      />
    </section>
  );
}

export function RulesPart({ form, set }: PartProps) {
  return (
    <section className="panel" aria-labelledby="part-rules">
      <h2 id="part-rules">{t.rules}</h2>
      <p className="small soft">{t.rulesHelp}</p>
      <Rows
        at="localRules"
        items={form.localRules}
        nameOf={(i) => t.rule(i + 1)}
        add={t.addRule}
        fresh=""
        most={sizes.localRules}
        onChange={(localRules, field) => set({ localRules }, field)}
        row={(rule, i, put) => (
          <TextInput
            at={`localRules.${i}`}
            label={t.rule(i + 1)}
            hideLabel
            value={rule}
            most={sizes.localRule}
            onChange={put}
          />
        )}
      />
    </section>
  );
}
