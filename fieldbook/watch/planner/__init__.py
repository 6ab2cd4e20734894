"""The planner: PVC, steel and hose side by side for one well, duty and rig; how deep each goes."""
