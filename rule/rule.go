// Package rule holds requirements of the National Electrical Code as plain
// functions, one file each: measured figures in, what lies beyond the figure of
// the requirement out.
//
// It ranks where to look. It never says that something meets the code: which
// edition is adopted, whether the requirement applies and whether it is met, the
// authority having jurisdiction decides. A figure that was not measured gives
// "cannot tell", with the reason, and never counts for or against.
//
// Start with Spacing.
package rule
