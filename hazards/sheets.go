package hazards

// Sheets that judge what the file does not name a sheet for.
const (
	freeSheet    = "contact-transient"
	clampedSheet = "contact-clamped"
	jawSheet     = "jaw-pinch"
	chainSheet   = "level-chain" // safety functions
)
