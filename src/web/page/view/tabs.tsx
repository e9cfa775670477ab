// Panels of which one shows; arrows go from tab to tab (WAI-ARIA Authoring Practices, tabs).

import type {ComponentChildren} from 'preact';
import {useRef} from 'preact/hooks';

interface Tab {
  id: string;
  title: string;
  body: () => ComponentChildren;
}

export function Tabs({tabs, shown, show}: {tabs: Tab[]; shown: string; show(id: string): void}) {
  const list = useRef<HTMLDivElement>(null);
  const pressed = (event: KeyboardEvent) => {
    const at = tabs.findIndex((tab) => tab.id === shown);
    const last = tabs.length - 1;
    const to = {ArrowRight: at === last ? 0 : at + 1, ArrowLeft: at === 0 ? last : at - 1, Home: 0, End: last}[event.key];
    if (to === undefined) return;
    event.preventDefault();
    show(tabs[to]!.id);
    list.current?.querySelectorAll<HTMLElement>('[role=tab]')[to]?.focus();
  };
  return (
    <section class="side">
      <div class="tabs" role="tablist" aria-label="About this setup" ref={list} onKeyDown={pressed}>
        {tabs.map((tab) => (
          <button type="button" role="tab" id={`tab-${tab.id}`} aria-controls={`panel-${tab.id}`}
                  aria-selected={tab.id === shown} tabIndex={tab.id === shown ? 0 : -1}
                  onClick={() => show(tab.id)}>{tab.title}</button>
        ))}
      </div>
      {tabs.map((tab) => (
        <div role="tabpanel" id={`panel-${tab.id}`} aria-labelledby={`tab-${tab.id}`} class="panel"
             hidden={tab.id !== shown}>{tab.id === shown ? tab.body() : null}</div>
      ))}
    </section>
  );
}
