#!/bin/sh
# Writes the sounds of this folder. Needs ffmpeg, lame, flac, oggenc.
set -eu
cd "$(dirname "$0")"

# Half a second of silence with two clicks, at samples 4,410 and 13,230 of
# 22,050: a step to 0.8 that dies away within some 100 samples.
click='0.8*exp(-0.05*(n-4410))*gte(n,4410)*lt(n,5000)+0.8*exp(-0.05*(n-13230))*gte(n,13230)*lt(n,14000)'
ffmpeg -v error -y -f lavfi -i "aevalsrc='$click':s=44100:d=0.5" \
	-metadata title=Click -fflags +bitexact -flags:a +bitexact -c:a pcm_s16le click.wav

lame --quiet -V 4 --tt Click click.wav click.mp3
lame --quiet -b 64 -t click.wav click-untagged.mp3
lame --quiet --resample 22.05 -b 32 click.wav click-mpeg2.mp3
flac --totally-silent --force --no-padding --tag=TITLE=Click click.wav -o click.flac
oggenc --quiet --serial 1 -t Click click.wav -o click.ogg

# The same in formats that are refused with advice.
ffmpeg -v error -y -i click.wav -fflags +bitexact -b:a 32k click.m4a
ffmpeg -v error -y -i click.wav -fflags +bitexact -b:a 32k click.opus
ffmpeg -v error -y -i click.wav -fflags +bitexact -ar 8000 click.aiff
