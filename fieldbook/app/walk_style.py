"""How the walk is laid out, and what gives way where the screen is short or narrow."""

STYLE = """
WalkScreen {
    & #where { height: 1; padding: 0 1; text-style: bold; }
    & #where { text-wrap: nowrap; text-overflow: ellipsis; }
    & #body { height: 1fr; }
    & #left { width: 1fr; padding: 0 1; scrollbar-size-vertical: 1; }
    & #right { width: 35; }
    & #form { height: auto; }
    & #said { height: auto; padding: 0 1; text-style: bold; }
    & #keys { padding: 0 1; color: $muted; height: auto; }
    & .gone { display: none; }
    &.-tall #form, &.-tall Recent { margin: 1 0 0 0; }
    &.-short StepCard.-known #step-do { display: none; }
    & StepCard.-barred #step-do, & StepCard.-barred #step-hold { display: none; }
    &.-tall StopPanel, &.-tall HoldPanel { margin: 1 0; }
    &.-short #acts.-asleep, &.-short WellDrawing.-awake { display: none; }
    & #acts.-asleep { color: $muted; }
    &.-wide #right { width: 42; }
    & Glance { display: none; }
    &.-wide.-tall Glance { display: block; }
    &.-wide.-tall #where { display: none; }
}
"""
