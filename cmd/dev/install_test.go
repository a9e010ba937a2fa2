package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRecognise(t *testing.T) {
	for _, c := range []struct {
		name, os, release, manager, want string
	}{
		{"Debian", "linux", onDebian, "apt-get", debian.name},
		{"Ubuntu", "linux", onUbuntu, "apt-get", debian.name},
		{"a system like Ubuntu", "linux", onMint, "apt-get", debian.name},
		{"Fedora", "linux", onFedora, "dnf", fedora.name},
		{"a system like Fedora", "linux", onRocky, "dnf", fedora.name},
		{"Arch", "linux", onArch, "pacman", arch.name},
		{"macOS", "darwin", "", "brew", macOS.name},
		{"macOS without brew", "darwin", "", "", macOS.name},
		{"Windows", "windows", "", "winget", windows.name},
		{"a Linux not in the table", "linux", onVoid, "xbps-install", unknown.name},
		{"Debian's name without its manager", "linux", onDebian, "apk", unknown.name},
		{"no os-release", "linux", "", "apt-get", unknown.name},
		{"another kernel", "freebsd", "", "pkg", unknown.name},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, recognise(bare(t, c.os, c.release, c.manager)).name)
		})
	}
}

func TestRootInstallsWhatIsMissingWithoutAsking(t *testing.T) {
	for _, c := range []struct {
		name, release, manager string
		want                   []string
	}{
		{"Debian", onDebian, "apt-get", []string{
			"DEBIAN_FRONTEND=noninteractive apt-get update",
			"DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends gcc libc6-dev pkg-config libgl1-mesa-dev xorg-dev libgl1-mesa-dri xvfb xauth xdotool imagemagick poppler-utils",
		}},
		{"Fedora", onFedora, "dnf", []string{
			"dnf makecache",
			"dnf install -y gcc glibc-devel pkgconf-pkg-config mesa-libGL-devel libX11-devel libXcursor-devel libXrandr-devel libXinerama-devel libXi-devel libXxf86vm-devel mesa-dri-drivers xorg-x11-server-Xvfb xorg-x11-xauth xdotool ImageMagick poppler-utils",
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := bare(t, "linux", c.release, c.manager).bringing()
			m.root = true
			require.NoError(t, provide(m, testNeeds(), false))
			assert.Equal(t, c.want, m.ran)
			assert.Empty(t, m.asked)
			assert.Empty(t, lacking(m, recognise(m), testNeeds()))

			m.ran = nil
			require.NoError(t, provide(m, testNeeds(), false), "a second time nothing is missing")
			assert.Empty(t, m.ran)
		})
	}
}

func TestArchUpdatesTheWholeSystemAndSaysSo(t *testing.T) {
	m := bare(t, "linux", onArch, "pacman").bringing()
	m.root = true
	m.files["/usr/include/stdio.h"] = "" // glibc brings its headers there
	require.NoError(t, provide(m, runNeeds(), false))
	assert.Equal(t, []string{"pacman -Syu --needed --noconfirm gcc pkgconf libglvnd xorgproto libx11 libxcursor libxrandr libxinerama libxi libxxf86vm mesa"}, m.ran)
	assert.Contains(t, m.text(), "whole system")
}

func TestSudoIsAskedFor(t *testing.T) {
	wantRun := []string{
		"sudo env DEBIAN_FRONTEND=noninteractive apt-get update",
		"sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends gcc libc6-dev pkg-config libgl1-mesa-dev xorg-dev libgl1-mesa-dri",
	}
	for _, c := range []struct {
		name                string
		yes, answer         bool
		wantAsked, wantDone bool
	}{
		{"answered yes", false, true, true, true},
		{"answered no, or nobody there", false, false, true, false},
		{"-y", true, false, false, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := bare(t, "linux", onDebian, "apt-get", "sudo").bringing()
			m.answer = c.answer
			err := provide(m, runNeeds(), c.yes)
			assert.Equal(t, c.wantAsked, len(m.asked) > 0)
			if c.wantDone {
				require.NoError(t, err)
				assert.Equal(t, wantRun, m.ran)
				return
			}
			require.ErrorIs(t, err, errLacking)
			assert.Empty(t, m.ran)
			assert.Contains(t, m.text(), wantRun[1], "what to type is printed")
		})
	}
}

func TestNeitherRootNorSudo(t *testing.T) {
	m := bare(t, "linux", onDebian, "apt-get").bringing()
	assert.Equal(t, 1, dev(m, []string{"test", "-y"}))
	assert.Empty(t, m.ran)
	assert.Contains(t, m.text(), "gcc libc6-dev pkg-config libgl1-mesa-dev xorg-dev libgl1-mesa-dri xvfb xauth xdotool imagemagick poppler-utils")
	assert.Contains(t, m.text(), "not root")
}

func TestOnlyWhatIsMissingIsNamed(t *testing.T) {
	m := bare(t, "linux", onDebian, "apt-get").bringing()
	for _, p := range []string{"gcc", "libc6-dev", "pkg-config", "libgl1-mesa-dev", "xorg-dev", "xvfb", "xauth", "imagemagick", "poppler-utils"} {
		m.brings[p](m)
	}
	missing := lacking(m, debian, testNeeds())
	assert.Equal(t, []string{"libgl1-mesa-dri", "xdotool"}, packagesOf(debian, missing))
}

func TestUnknownSystemIsToldInWords(t *testing.T) {
	m := bare(t, "linux", onVoid, "xbps-install")
	m.root = true
	require.ErrorIs(t, provide(m, testNeeds(), true), errLacking)
	assert.Empty(t, m.ran)
	for _, n := range testNeeds() {
		assert.Contains(t, m.text(), n.words)
	}
}

func TestMacOS(t *testing.T) {
	t.Run("the command line tools are the user's to install", func(t *testing.T) {
		m := bare(t, "darwin", "", "brew", "clang").bringing()
		require.ErrorIs(t, provide(m, runNeeds(), true), errLacking)
		assert.Empty(t, m.ran)
		assert.Contains(t, m.text(), "xcode-select --install")
	})
	t.Run("brew installs as the user, after asking", func(t *testing.T) {
		m := bare(t, "darwin", "", "brew", "clang", "xcode tools").bringing()
		m.answer = true
		require.NoError(t, provide(m, testNeeds(), false))
		assert.Equal(t, []string{"brew update", "brew install poppler"}, m.ran)
		assert.Len(t, m.asked, 1)
	})
	t.Run("with the tools nothing more is needed to run", func(t *testing.T) {
		require.NoError(t, provide(bare(t, "darwin", "", "clang", "xcode tools"), runNeeds(), false))
	})
}

func TestWindows(t *testing.T) {
	m := bare(t, "windows", "", "winget").bringing()
	require.NoError(t, provide(m, testNeeds(), true))
	assert.Equal(t, []string{
		"winget source update",
		"winget install --exact --accept-package-agreements --accept-source-agreements BrechtSanders.WinLibs.POSIX.UCRT oschwartz10612.Poppler",
	}, m.ran)
	t.Run("without winget", func(t *testing.T) {
		m := bare(t, "windows", "")
		require.ErrorIs(t, provide(m, runNeeds(), true), errLacking)
		assert.Contains(t, m.text(), "winget is not on PATH")
	})
}

func TestAnOldPackageListDoes(t *testing.T) {
	m := bare(t, "linux", onDebian, "apt-get").bringing()
	m.root = true
	m.fails["apt-get update"] = true
	require.NoError(t, provide(m, runNeeds(), false))
	assert.Len(t, m.ran, 2)
}

func TestInstallingThatFailsOrDoesNotHelp(t *testing.T) {
	t.Run("fails", func(t *testing.T) {
		m := bare(t, "linux", onDebian, "apt-get").bringing()
		m.root = true
		m.fails["apt-get install"] = true
		require.ErrorIs(t, provide(m, runNeeds(), false), errLacking)
		assert.Contains(t, m.text(), "were not installed")
	})
	t.Run("does not help", func(t *testing.T) {
		m := bare(t, "linux", onDebian, "apt-get").bringing()
		m.root = true
		delete(m.brings, "libgl1-mesa-dri")
		require.ErrorIs(t, provide(m, runNeeds(), false), errLacking)
		assert.Contains(t, m.text(), "still not found:\n  an OpenGL driver")
	})
}

func TestHasCompiler(t *testing.T) {
	t.Run("a compiler without the C library's headers does not do", func(t *testing.T) {
		m := bare(t, "linux", onDebian, "gcc")
		assert.False(t, hasCompiler(m))
		m.files["/usr/include/stdio.h"] = ""
		assert.True(t, hasCompiler(m))
	})
	t.Run("CC names another", func(t *testing.T) {
		m := bare(t, "linux", onDebian, "clang")
		m.files["/usr/include/stdio.h"] = ""
		assert.False(t, hasCompiler(m))
		m.env["CC"] = "clang -O2"
		assert.True(t, hasCompiler(m))
	})
}

func TestEveryNeedNamesItsPackagesOnLinux(t *testing.T) {
	for _, n := range testNeeds() {
		for _, s := range []system{debian, fedora, arch} {
			assert.NotEmpty(t, n.packages[s.name], "%s on %s", n.words, s.name)
		}
		assert.NotEmpty(t, n.why, n.words)
	}
}
