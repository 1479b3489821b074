// Filled by its room.
