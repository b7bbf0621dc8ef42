import { useStore } from 'zustand';
import { quiltOf } from '../../document/edit-quilt.ts';
import type { Fabric } from '../../document/project.ts';
import type { Sashing, Setting, SettingKind } from '../../document/quilt.ts';
import { phrase } from '../../words/phrase.ts';
import { session, shownProject } from '../../workspace/session.ts';
import { Folded } from '../folded.tsx';
import { BorderRows } from './border-rows.tsx';
import { FabricSelect } from './fabric-select.tsx';
import { KeptLayouts } from './kept-layouts.tsx';
import { byLightness, changePart, firstSetting, moduleOf, setQuilt } from './quilt-acts.ts';
import { CountField, SizeField } from './set-field.tsx';
import { SizeToFit } from './size-to-fit.tsx';

export const SETTING_WORDS: Readonly<Record<SettingKind, string>> = {
  straight: phrase('Straight'),
  offset: phrase('Offset rows'),
  'on-point': phrase('On point'),
  strips: phrase('In strips'),
  mixed: phrase('Mixed sizes'),
};

const KINDS = Object.entries(SETTING_WORDS) as [SettingKind, string][];

/** Sashing begins in the palest cloth there is, its cornerstones in the darkest. */
function sashingFor(fabrics: readonly Fabric[]): Sashing {
  const [palest, darkest] = [byLightness(fabrics).at(-1), byLightness(fabrics)[0]];
  return {
    width: 1,
    cornerstones: true,
    outside: true,
    ...(palest && { fabric: palest.id }),
    ...(darkest && { cornerstoneFabric: darkest.id }),
  };
}

/** How the blocks are set, and what goes round them. */
export function SettingPanel() {
  const project = useStore(session, shownProject);
  const { unit } = project;
  const quilt = quiltOf(project);
  const { setting, borders = [] } = quilt;
  const set = (change: Partial<Setting>): void => {
    if (setting) setQuilt(phrase('Change the setting'), { ...setting, ...change }, borders);
  };
  const choose = (kind: SettingKind): void => {
    const begun = firstSetting(project, kind);
    const keeps = setting && setting.kind !== 'mixed' && kind !== 'mixed';
    setQuilt(
      SETTING_WORDS[kind],
      keeps
        ? { ...begun, ...setting, kind, cell: kind === 'on-point' ? begun.cell : setting.cell }
        : kind === 'mixed'
          ? { ...begun, columns: Math.max(4, Math.ceil(Math.sqrt(quilt.places.length || 16))), rows: 1 }
          : begun,
      borders,
    );
  };
  const sashing = setting?.sashing;
  return (
    <>
      <section className="quilt-card" aria-labelledby="setting-title">
        <h2 id="setting-title" className="quilt-title">
          {phrase('Setting')}
        </h2>
        <fieldset className="quilt-kinds" aria-label={phrase('Kind of setting')}>
          {KINDS.map(([kind, words]) => (
            <button
              key={kind}
              type="button"
              className="quilt-kind"
              aria-pressed={setting?.kind === kind}
              onClick={() => choose(kind)}
            >
              <SettingPicture kind={kind} />
              {words}
            </button>
          ))}
        </fieldset>
        {!setting && (
          <>
            <p className="soft">
              {phrase(
                'The places lie free: drag them, and they keep to a module. A setting lays them in order again.',
              )}
            </p>
            <SizeField
              label={phrase('Module')}
              inches={moduleOf(project)}
              unit={unit}
              onSet={(module) => changePart(phrase('Change the module'), (old) => ({ ...old, module }))}
            />
          </>
        )}
        {setting && (
          <>
            <div className="quilt-row">
              {setting.kind === 'mixed' ? (
                <CountField
                  label={phrase('Modules across')}
                  count={setting.columns}
                  onSet={(columns) => set({ columns })}
                />
              ) : (
                <>
                  <CountField
                    label={phrase('Across')}
                    count={setting.columns}
                    onSet={(columns) => set({ columns })}
                  />
                  <CountField label={phrase('Down')} count={setting.rows} onSet={(rows) => set({ rows })} />
                </>
              )}
              <SizeField
                label={setting.kind === 'mixed' ? phrase('Module') : phrase('Block width')}
                inches={setting.cell[0]}
                unit={unit}
                onSet={(w) =>
                  set({
                    cell:
                      setting.kind === 'on-point' || setting.kind === 'mixed' ? [w, w] : [w, setting.cell[1]],
                  })
                }
              />
              {setting.kind !== 'on-point' && setting.kind !== 'mixed' && (
                <SizeField
                  label={phrase('Block height')}
                  inches={setting.cell[1]}
                  unit={unit}
                  onSet={(h) => set({ cell: [setting.cell[0], h] })}
                />
              )}
            </div>
            {(setting.kind === 'straight' || setting.kind === 'on-point') && (
              <>
                <label className="quilt-tick">
                  <input
                    type="checkbox"
                    checked={sashing !== undefined}
                    onChange={(event) => {
                      const { sashing: _old, ...bare } = setting;
                      setQuilt(
                        event.target.checked ? phrase('Add sashing') : phrase('Take the sashing out'),
                        event.target.checked ? { ...bare, sashing: sashingFor(project.fabrics) } : bare,
                        borders,
                      );
                    }}
                  />
                  {phrase('Sashing between the blocks')}
                </label>
                {sashing && (
                  <div className="quilt-inset">
                    <div className="quilt-row">
                      <SizeField
                        label={phrase('Width')}
                        inches={sashing.width}
                        unit={unit}
                        onSet={(width) => set({ sashing: { ...sashing, width } })}
                      />
                      <FabricSelect
                        label={phrase('Fabric')}
                        value={sashing.fabric}
                        onChoose={(fabric) => set({ sashing: withFabric(sashing, 'fabric', fabric) })}
                      />
                    </div>
                    <label className="quilt-tick">
                      <input
                        type="checkbox"
                        checked={sashing.cornerstones}
                        onChange={(event) =>
                          set({ sashing: { ...sashing, cornerstones: event.target.checked } })
                        }
                      />
                      {phrase('Cornerstones')}
                    </label>
                    {sashing.cornerstones && (
                      <FabricSelect
                        label={phrase('Fabric of the cornerstones')}
                        value={sashing.cornerstoneFabric}
                        onChoose={(fabric) =>
                          set({ sashing: withFabric(sashing, 'cornerstoneFabric', fabric) })
                        }
                      />
                    )}
                    {setting.kind === 'straight' && (
                      <label className="quilt-tick">
                        <input
                          type="checkbox"
                          checked={sashing.outside}
                          onChange={(event) =>
                            set({ sashing: { ...sashing, outside: event.target.checked } })
                          }
                        />
                        {phrase('Round the outside as well')}
                      </label>
                    )}
                  </div>
                )}
              </>
            )}
            {setting.kind === 'strips' && (
              <div className="quilt-row">
                <SizeField
                  label={phrase('Width of the strips')}
                  inches={setting.strip?.width ?? 2}
                  unit={unit}
                  onSet={(width) => set({ strip: { ...setting.strip, width } })}
                />
                <FabricSelect
                  label={phrase('Fabric')}
                  value={setting.strip?.fabric}
                  onChoose={(fabric) =>
                    set({
                      strip: { width: setting.strip?.width ?? 2, ...(fabric !== undefined && { fabric }) },
                    })
                  }
                />
              </div>
            )}
            {setting.kind !== 'straight' && setting.kind !== 'strips' && (
              <FabricSelect
                label={
                  setting.kind === 'on-point'
                    ? phrase('Fabric of the setting triangles')
                    : phrase('Fabric that fills up')
                }
                value={setting.fabric}
                onChoose={(fabric) => {
                  const { fabric: _old, ...bare } = setting;
                  setQuilt(
                    phrase('Change the setting'),
                    fabric === undefined ? bare : { ...bare, fabric },
                    borders,
                  );
                }}
              />
            )}
          </>
        )}
      </section>
      <BorderRows quilt={quilt} />
      {setting && setting.kind !== 'mixed' && (
        <Folded title={phrase('Size to fit')}>
          <SizeToFit setting={setting} borders={borders} />
        </Folded>
      )}
      <KeptLayouts quilt={quilt} />
    </>
  );
}

function withFabric(
  sashing: Sashing,
  key: 'fabric' | 'cornerstoneFabric',
  fabric: string | undefined,
): Sashing {
  const { [key]: _old, ...bare } = sashing;
  return (fabric === undefined ? bare : { ...bare, [key]: fabric }) as Sashing;
}

/** A few lines that show what a setting looks like. */
function SettingPicture({ kind }: { readonly kind: SettingKind }) {
  const lines: Readonly<Record<SettingKind, string>> = {
    straight: 'M2 2H26V26H2ZM10 2V26M18 2V26M2 10H26M2 18H26',
    offset: 'M2 2H26V26H2ZM2 10H26M2 18H26M10 2V10M18 2V10M6 10V18M14 10V18M22 10V18M10 18V26M18 18V26',
    'on-point': 'M2 2H26V26H2ZM14 2 2 14 14 26 26 14ZM8 8 20 20M20 8 8 20',
    strips: 'M2 2H26V26H2ZM9 2V26M12 2V26M19 2V26M2 10H9M2 18H9M12 10H19M12 18H19M22 2V26',
    mixed: 'M2 2H26V26H2ZM18 2V26M2 18H26M18 10H26M10 18V26',
  };
  return (
    <svg width={28} height={28} viewBox="0 0 28 28" aria-hidden="true" focusable="false">
      <path d={lines[kind]} fill="none" stroke="currentColor" strokeWidth={1.3} />
    </svg>
  );
}
