"""What a text may betray of its keeper: a module for each subject, all listed in ``registry``."""
