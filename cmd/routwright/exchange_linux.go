package main

import "golang.org/x/sys/unix"

// exchange swaps two folders in one step, so that a kill at any moment leaves
// one of them whole at each name. It reports false where the file system cannot.
func exchange(a, b string) bool {
	return unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE) == nil
}
