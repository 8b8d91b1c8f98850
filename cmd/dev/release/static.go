package release

import (
	"debug/elf"
	"fmt"
)

// Static returns an error unless the ELF program at path asks for no loader and no
// library.
func Static(path string) error {
	f, err := elf.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	for _, part := range f.Progs {
		if part.Type == elf.PT_INTERP {
			return fmt.Errorf("%s asks for a loader of the machine", path)
		}
	}
	libraries, err := f.ImportedLibraries()
	if err != nil {
		return err
	}
	if len(libraries) > 0 {
		return fmt.Errorf("%s asks for %v of the machine", path, libraries)
	}
	return nil
}
