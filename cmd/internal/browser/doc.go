// Package browser drives a headless Chromium for tests and pictures.
package browser
