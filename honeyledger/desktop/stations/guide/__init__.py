"""The guide: what to do at each station, in plain words."""
