"""Every word of the files, figures and states, explained one by one."""
