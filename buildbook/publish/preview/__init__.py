"""A hangar shown while it is written: pages made when they are asked for, on this machine only."""
