//go:build !linux

package watch

var systemSaves []save
