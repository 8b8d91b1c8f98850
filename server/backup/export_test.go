package backup

// Kept is what is kept of backups made at these times.
var Kept = kept
