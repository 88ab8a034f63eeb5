"""What can be told of a hangar, an aircraft, a pack, a part: types only, worked out elsewhere."""
