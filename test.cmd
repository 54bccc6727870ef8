@echo off
rem Builds everything and runs every test.
cd /d "%~dp0"
dotnet build Stillhook.slnx -c Release -v q -nologo || exit /b 1
dotnet artifacts\bin\Stillhook.Tests\release\Stillhook.Tests.dll -noColor %* || exit /b 1
dotnet artifacts\bin\Stillhook.Browser\release\Stillhook.Browser.dll -noColor %*
