"""How the walk is laid out, and what gives way where the screen is short or narrow.

On a short or narrow screen the letters take the place of the form, since nobody types while they
act; the well and the limits stay.
"""

STYLE = """
WalkScreen {
    & #where { height: 1; padding: 0 1; text-style: bold; }
    & #where { text-wrap: nowrap; text-overflow: ellipsis; }
    & #body { height: 1fr; }
    & #left { width: 1fr; padding: 0 0 0 1; scrollbar-size-vertical: 1; }
    & #right { width: 35; }
    & StepCard, & Recent { padding: 0 1 0 0; }
    & #form { height: auto; }
    & #said { height: auto; padding: 0 1; text-style: bold; }
    & #keys { padding: 0 1; color: $muted; height: auto; }
    & .gone { display: none; }
    &.-tall #form, &.-tall Recent { margin: 1 0 0 0; }
    &.-short StepCard.-known #step-do { display: none; }
    &.-short Recent, &.-narrow Recent { height: 1fr; min-height: 0; }
    &.-short WokenPanel.-barred { display: none; }
    & Glance Vertical:last-child { width: 1.6fr; }
    & StepCard.-barred #step-do, & StepCard.-barred #step-hold { display: none; }
    &.-short StepCard.-barred #step-caution { display: none; }
    &.-tall StopPanel, &.-tall HoldPanel { margin: 1 0; }
    & #acts.-asleep { color: $muted; }
    & #acts-beside { display: none; margin: 1 0 0 0; }
    &.-short #acts, &.-narrow #acts { display: none; }
    &.-short #acts-beside, &.-narrow #acts-beside { display: block; }
    &.-short #acts-beside { margin: 0; }
    &.-short #acts-beside.-asleep, &.-narrow #acts-beside.-asleep { display: none; }
    &.-short #form.-awake, &.-narrow #form.-awake { display: none; }
    &.-wide #right { width: 42; }
    & Glance { display: none; }
    &.-tall Glance { display: block; }
    &.-tall #where { display: none; }
}
"""
