"""Hearing the strike, where there is a microphone; all works without one."""
